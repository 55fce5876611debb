import { Buffer } from 'node:buffer';
import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
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

test('an open file is read anywhere, until somebody writes to it', () => {
  const path = join(folder, 'open.ngc');
  writeFileSync(path, 'G1 X5\nM2\n');
  const file = terminalFiles.open(path);
  if ('problem' in file) throw new Error(file.problem);
  const read = (length: number, from: number) => {
    const into = new Uint8Array(length);
    const count = file.read(into, from);
    return typeof count === 'number' ? Buffer.from(into.subarray(0, count)).toString() : count.problem;
  };
  expect([read(2, 6), read(99, 3), read(5, 0), read(5, 9)]).toEqual(['M2', 'X5\nM2\n', 'G1 X5', '']);
  utimesSync(path, 1, 1);
  expect(read(2, 6)).toBe('it was changed meanwhile');
  file.close();
  rmSync(path);
  expect(terminalFiles.open(path)).toEqual({ problem: 'no such file or folder' });
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
