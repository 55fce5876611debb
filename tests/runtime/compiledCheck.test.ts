import { mkdtempSync, renameSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, beforeEach, expect, test } from 'vitest';
import {
  checkScript,
  compileCheck,
  compiledName,
  readCompiledCheck,
} from '../../server/runtime/compiledCheck.ts';

let folder: string;
const url = () => pathToFileURL(`${folder}/`);
const inFolder = (name: string) => path.join(folder, name);

/** Stands for the command: what matters is that it is the script of the folder that runs. */
const script = 'module.exports = { check: () => require("node:path").sep + "∅" };';
const result = (module: unknown) => (module as { check(): string }).check();

beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'probewright-compiled-'));
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** In another folder and moved: V8 remembers for a while what it compiled under a name. */
function compile(): void {
  const made = mkdtempSync(path.join(tmpdir(), 'probewright-compiled-'));
  writeFileSync(path.join(made, checkScript), script);
  const { command, compiled } = compileCheck(pathToFileURL(`${made}/`));
  expect(result(command)).toBe(`${path.sep}∅`);
  writeFileSync(inFolder(compiledName), compiled());
  renameSync(path.join(made, checkScript), inFolder(checkScript));
  rmSync(made, { recursive: true });
}

test('what was compiled for this Node is used', () => {
  compile();
  expect(result(readCompiledCheck(url()))).toBe(`${path.sep}∅`);
});

test.each([
  ['nothing was compiled', () => writeFileSync(inFolder(checkScript), script)],
  ['the script is not there', () => {}],
  [
    'the script is another one',
    () => {
      compile();
      writeFileSync(inFolder(checkScript), `${script} // later`);
    },
  ],
  [
    'a part of it is lost',
    () => {
      compile();
      truncateSync(inFolder(compiledName), 100);
    },
  ],
  [
    'it is something else',
    () => {
      compile();
      writeFileSync(inFolder(compiledName), 'no code');
    },
  ],
])('where %s, the command is loaded like the others', (_, prepare) => {
  prepare();
  expect(readCompiledCheck(url())).toBeNull();
});
