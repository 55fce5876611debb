import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { nodeFiles } from '../../server/runtime/nodeFiles.ts';

let folder: string;
const uriOf = (...path: string[]) => pathToFileURL(join(folder, ...path)).href;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'probewright-files-'));
  mkdirSync(join(folder, 'mill', 'old jobs'), { recursive: true });
  mkdirSync(join(folder, 'mill', 'taken.json'));
  writeFileSync(join(folder, 'taken.json'), 'outer');
  writeFileSync(join(folder, 'mill', 'near.json'), 'near');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('the nearest file upwards, through folders with blanks; a folder of that name is none', async () => {
  const part = uriOf('mill', 'old jobs', 'part.ngc');
  expect(await nodeFiles.findUpwards(part, 'near.json')).toEqual({
    uri: uriOf('mill', 'near.json'),
    text: 'near',
  });
  expect(await nodeFiles.findUpwards(part, 'taken.json')).toEqual({
    uri: uriOf('taken.json'),
    text: 'outer',
  });
  expect(await nodeFiles.findUpwards(part, 'of-no-such-name.json')).toBeNull();
});

test('what is no file of this machine has no text', async () => {
  expect(await nodeFiles.read('untitled:Untitled-1')).toBeNull();
  expect(await nodeFiles.findUpwards('untitled:Untitled-1', 'near.json')).toBeNull();
  expect(await nodeFiles.read(uriOf('nothing.json'))).toBeNull();
});
