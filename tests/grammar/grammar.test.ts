import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';

const folder = import.meta.dirname;
const root = path.resolve(folder, '../..');
const programs = readdirSync(folder).filter((name) => /\.(ngc|nc)$/.test(name));
const scratch = mkdtempSync(path.join(root, 'node_modules/.grammar-'));
afterAll(() => rmSync(scratch, { recursive: true }));

/** Runs the grammar's assertions of one program; throws where one is wrong. */
function assertScopes(file: string): string {
  const tool = path.join(root, 'node_modules/vscode-tmgrammar-test/dist/unit.js');
  return execFileSync(process.execPath, [tool, path.relative(root, file)], { cwd: root, encoding: 'utf8' });
}

test.each(programs)('%s has the scopes that stand in it', (name) => {
  expect(assertScopes(path.join(folder, name))).toContain('run successfuly');
});

test('a wrong assertion is noticed', () => {
  const file = path.join(scratch, 'wrong.ngc');
  writeFileSync(file, '; SYNTAX TEST "source.gcode"\nG38.2 Z1\n; <----- keyword.other.motion.gcode\n');
  expect(() => assertScopes(file)).toThrow();
});

test('every scope that the grammar names is asserted somewhere', () => {
  const grammar = readFileSync(path.join(root, 'syntaxes/gcode.tmLanguage.json'), 'utf8');
  const named = [...grammar.matchAll(/"(?:name|contentName)": "([a-z.-]+\.gcode)"/g)].map(
    (match) => match[1],
  );
  const asserted = programs.map((name) => readFileSync(path.join(folder, name), 'utf8')).join('\n');
  expect(named.length).toBeGreaterThan(30);
  expect(named.filter((scope) => !asserted.includes(`${scope}\n`))).toEqual([]);
});
