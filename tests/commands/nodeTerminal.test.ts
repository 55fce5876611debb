import { Buffer } from 'node:buffer';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { wantsColour } from '../../server/runtime/nodeTerminal.ts';
import { terminalFiles } from '../../server/runtime/terminalFiles.ts';

test.each([
  [{}, true, true],
  [{}, false, false],
  [{ NO_COLOR: '1' }, true, false],
  [{ NO_COLOR: '' }, true, true],
  [{ FORCE_COLOR: '1' }, false, true],
  [{ FORCE_COLOR: '0' }, true, false],
  [{ NO_COLOR: '1', FORCE_COLOR: '1' }, true, false],
  [{ TERM: 'dumb' }, true, false],
])('colour under %o, terminal %s', (environment, terminal, expected) => {
  expect(wantsColour(environment, terminal)).toBe(expected);
});

const folder = mkdtempSync(join(tmpdir(), 'probewright-files-'));
afterAll(() => rmSync(folder, { recursive: true }));

test('a file comes in pieces, and what is not taken comes again', () => {
  const path = join(tmpdir(), `probewright-pieces-${process.pid}.txt`);
  const lines = Array.from({ length: 200_000 }, (_, line) => `line ${line}\n`).join('');
  writeFileSync(path, `${lines}end`);
  let text = '';
  let pieces = 0;
  const read = terminalFiles.readInPieces(path, (bytes, last) => {
    const end = last ? bytes.length : bytes.lastIndexOf(10) + 1;
    text += Buffer.from(bytes.subarray(0, end)).toString();
    pieces++;
    return end;
  });
  expect(read).toEqual({ done: true });
  expect(pieces).toBeGreaterThan(2);
  expect(text).toBe(`${lines}end`);
  expect(terminalFiles.readInPieces(path, () => 0)).toEqual({ done: false });
  expect(terminalFiles.readInPieces(folder, () => 1)).toEqual({ done: false });
  expect(terminalFiles.readInPieces(join(folder, 'none'), () => 1)).toEqual({
    problem: 'no such file or folder',
  });
  rmSync(path);
});

test('files and folders, and what goes wrong in words', () => {
  writeFileSync(join(folder, 'b.ngc'), 'G1');
  mkdirSync(join(folder, 'a'));
  expect(terminalFiles.list(folder)).toEqual([
    { name: 'a', kind: 'folder' },
    { name: 'b.ngc', kind: 'file' },
  ]);
  expect(terminalFiles.look(join(folder, 'b.ngc'))).toEqual({ kind: 'file', size: 2 });
  expect(terminalFiles.look(join(folder, 'c.ngc'))).toBeNull();
  expect(terminalFiles.look(join(folder, 'b.ngc', 'under a file'))).toBeNull();
  expect(terminalFiles.read(folder)).toEqual({ problem: 'is a folder' });
  expect(terminalFiles.write(join(folder, 'none', 'x'), new Uint8Array())).toEqual({
    problem: 'no such file or folder',
  });
  expect(terminalFiles.list(join(folder, 'none'))).toEqual({ problem: 'no such file or folder' });
});
