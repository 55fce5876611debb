import { expect, test } from 'vitest';
import { pageAround, readingPages } from './readThrough.ts';

const read = readingPages();

test('a picture without a name, a pale text and a table without heads are found', async () => {
  const faults = async (body: string) =>
    (await read(pageAround(body), 'light')).map((fault) => fault.slice(0, fault.indexOf(':')));
  expect(await faults('<p>Nothing is wrong here.</p>')).toEqual([]);
  expect(await faults('<svg role="img" width="9" height="9"></svg>')).toEqual(['svg-img-alt']);
  expect(await faults('<p style="color: #bbb">pale</p>')).toEqual(['color-contrast']);
  expect(await faults('<table><tr><th></th></tr><tr><td>1</td></tr></table>')).toContain(
    'empty-table-header',
  );
});

test('the colours are those of the theme', async () => {
  const page = pageAround('<p style="color: var(--vscode-textLink-foreground)">a link</p>');
  expect(await read(page, 'dark')).toEqual([]);
  const swapped = pageAround('<p style="color: #4daafc">a link of the dark theme</p>');
  expect(await read(swapped, 'dark')).toEqual([]);
  expect((await read(swapped, 'light')).join()).toContain('color-contrast');
});
