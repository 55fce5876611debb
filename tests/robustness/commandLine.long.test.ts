import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { badPrograms, woundedPrograms } from './badInput.ts';

const command = fileURLToPath(new URL('../../dist/probewright.js', import.meta.url));
const folder = mkdtempSync(path.join(tmpdir(), 'probewright-bad-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function write(name: string, content: string | Uint8Array): string {
  const file = path.join(folder, name);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, content);
  return file;
}

/** Runs the built command; a hang is ended after two minutes and then has no status. */
function run(...args: readonly string[]) {
  return spawnSync(process.execPath, [command, ...args], {
    encoding: 'utf8',
    timeout: 120_000,
    maxBuffer: 2 ** 29,
  });
}

/** It ended by itself with a status that the contract names, and no stack trace reached a person. */
function expectSound({ status, stderr }: ReturnType<typeof run>): void {
  expect(stderr).not.toMatch(/^\s+at .*:\d+:\d+/m);
  expect([0, 1, 2]).toContain(status);
}

describe.each(['check', 'error'])('%s', (name) => {
  test.each(Object.keys(badPrograms))('stands %s', (title) => {
    const file = write(`${title.replace(/\W+/g, '-')}.ngc`, badPrograms[title] ?? '');
    const result = run(name, '--format', 'json', file);
    expectSound(result);
    if (result.status === 2) expect(result.stderr).toContain(path.basename(file));
    else expect(JSON.parse(result.stdout).files).toHaveLength(1);
  });

  test('stands 40 MB of text that is no program', () => {
    const result = run(
      name,
      write('prose.ngc', 'The quick brown fox jumps over 13 lazy dogs.\n'.repeat(900_000)),
    );
    expectSound(result);
  });

  test('stands 40 MB of bytes', () => {
    const bytes = new Uint8Array(40_000_000);
    for (let i = 0; i < bytes.length; i++) bytes[i] = (i * 2654435761) >>> 13;
    expectSound(run(name, write('bytes.ngc', bytes)));
  });
});

test('a folder of wounded programs is checked to its end', () => {
  const wounded = woundedPrograms(600, 7);
  for (const [name, content] of Object.entries(wounded)) write(`wounded/${name}`, content);
  const result = run('check', '--format', 'json', path.join(folder, 'wounded'));
  expectSound(result);
  const { files } = JSON.parse(result.stdout) as { files: readonly unknown[] };
  const binary = result.stderr.split('\n').filter((line) => line.endsWith('binary, not a program; skipped.'));
  expect(files.length + binary.length).toBe(Object.keys(wounded).length);
  expect(binary.length).toBeLessThan(10);
});

describe('a profile that cannot be', () => {
  const program = () => write('sound.ngc', 'G21 G90 G94\nF100\nG38.2 Z-10\nG0 Z5\nM2\n');

  test.each([
    ['no JSON', '{ "probe": '],
    ['a misspelt entry', '{ "prob": {} }'],
    ['an impossible value', '{ "probe": { "tipDiameter": -6 } }'],
    ['a list', '[]'],
    ['bytes', '\u0000\u0001\u0002'],
  ])('%s is refused with the file and the place', (title, text) => {
    const file = write(`${title.replace(/\W+/g, '-')}.json`, text);
    const result = run('check', '--profile', file, program());
    expectSound(result);
    expect(result.status).toBe(2);
    expect(result.stderr).toContain(path.basename(file));
  });
});

test.each([
  ['a file that is not there', ['check', 'nowhere.ngc'], 'nowhere.ngc'],
  ['an unknown option', ['check', '--colour', 'x.ngc'], '--colour'],
  ['an unknown command', ['chekc'], 'chekc'],
  ['an unknown feature', ['generate', 'teapot'], 'teapot'],
])('%s ends with 2 and names it', (_, args, named) => {
  const result = run(...args);
  expectSound(result);
  expect(result.status).toBe(2);
  expect(result.stderr).toContain(named);
});
