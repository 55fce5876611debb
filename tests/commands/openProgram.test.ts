import { Buffer } from 'node:buffer';
import { expect, test } from 'vitest';
import { openProgram } from '../../server/commands/openProgram.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { fakeTerminal, ran } from './fakeTerminal.ts';

const path = { shown: 'a.ngc', absolute: '/shop/a.ngc', walked: false };

async function open(bytes: Uint8Array): Promise<SourceText> {
  const { terminal } = fakeTerminal({ files: { '/shop/a.ngc': bytes } });
  const opened = await openProgram(path, terminal);
  if ('problem' in opened) throw new Error(opened.problem);
  return opened.text;
}

const milling = 'N10 G1 X1.25 Y-3 F100\n'.repeat(60_000);

test.each([
  ['ASCII', milling, Buffer.from(milling)],
  ['UTF-8', `${milling}(∅ é)\r\n${milling}`, Buffer.from(`${milling}(∅ é)\r\n${milling}`)],
  ['UTF-8 with its mark', milling, Buffer.from(`\ufeff${milling}`)],
  ['Latin-1', `${milling}(é)\rM2`, Buffer.from(`${milling}(é)\rM2`, 'latin1')],
  ['UTF-16', milling, Buffer.from(`\ufeff${milling}`, 'utf16le')],
  ['a short file', 'G1 X5', Buffer.from('G1 X5')],
])('the text of a program in %s', async (_, whole, bytes) => {
  const text = await open(bytes);
  expect(text.toString()).toBe(whole);
  expect(text.lineCount).toBe(SourceText.from(whole).lineCount);
});

test('what is no program, or not there', async () => {
  const { terminal } = fakeTerminal({ files: { '/shop/a.ngc': Buffer.alloc(2_000_000) } });
  expect(await openProgram(path, terminal)).toEqual({ problem: 'a.ngc: binary, not a program; skipped.' });
  expect(await openProgram({ ...path, absolute: '/shop/b.ngc' }, terminal)).toHaveProperty('problem');
});

test('a large program is checked like a small one, and told where it was changed meanwhile', async () => {
  const program = `G21 G90 G94\nT1 M6\n${milling}G38.2 Z-10 F50\nG0 X50\n${milling}M2\n`;
  const { status, out } = await ran(['check', 'a.ngc'], { files: { '/shop/a.ngc': program } });
  expect(status).toBe(1);
  expect(out).toContain('60003 | G38.2 Z-10 F50');
  expect(out).toContain('60004 | G0 X50');

  const { terminal, contents } = fakeTerminal({ files: { '/shop/a.ngc': program } });
  const opened = await openProgram(path, terminal);
  if ('problem' in opened) throw new Error(opened.problem);
  contents.set('/shop/a.ngc', Buffer.from('M2'));
  expect(() => opened.text.line(30_000)).toThrow('it was changed meanwhile');
});
