import { existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import {
  allowHereCommand,
  bringUpToDateCommand,
  explainRuleCommand,
  writeRoutineCommand,
} from '../../server/protocol/requests.ts';

const root = path.resolve(import.meta.dirname, '../..');
const read = (file: string) => readFileSync(path.join(root, file), 'utf8');
const manifest = JSON.parse(read('package.json'));
const { contributes } = manifest;
const contributed: string[] = contributes.commands.map(({ command }: { command: string }) => command);

test('each contributed command is registered, and no other', () => {
  const source = read('client/extension.ts');
  const byName = [...source.matchAll(/'(probewright\.\w+)':/g)].map((match) => match[1]);
  const constants: Readonly<Record<string, string>> = {
    allowHereCommand,
    bringUpToDateCommand,
    explainRuleCommand,
    writeRoutineCommand,
  };
  const byConstant = [...source.matchAll(/\[(\w+Command)\]:/g)].map((match) => constants[match[1] ?? '']);
  expect([...byName, ...byConstant].sort()).toEqual([...contributed].sort());
});

test('walkthrough and menus name contributed commands', () => {
  const text = JSON.stringify([contributes.walkthroughs, contributes.menus]);
  const named = [...text.matchAll(/(?:command:|onCommand:|"command":")(probewright\.\w+)/g)].map(
    (match) => match[1],
  );
  expect(named.length).toBeGreaterThan(5);
  for (const command of named) expect(contributed).toContain(command);
});

test('every file that VS Code is told of is there', () => {
  const text = JSON.stringify([manifest.icon, contributes]);
  const files = [...text.matchAll(/"((?:\.\/)?(?:client|syntaxes|snippets)\/[^"]+)"/g)].map(
    (match) => match[1] ?? '',
  );
  expect(files.length).toBeGreaterThan(8);
  expect(files.filter((file) => !existsSync(path.join(root, file)))).toEqual([]);
});

test('the demo page names every program of the demo', () => {
  const page = read('client/walkthrough/demo.md');
  const programs = readdirSync(path.join(root, 'client/walkthrough/demo')).filter((name) =>
    /\.(ngc|nc)$/.test(name),
  );
  expect(programs.length).toBeGreaterThanOrEqual(8);
  expect(programs.filter((name) => !page.includes(`\`${name}\``))).toEqual([]);
  expect(Object.keys(JSON.parse(read('tests/programs/demo.json'))).sort()).toEqual(programs.sort());
});

test('the extension starts with the language and with nothing else', () => {
  expect(manifest.activationEvents).toEqual(['onLanguage:gcode']);
});
