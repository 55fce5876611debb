import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const root = path.resolve(import.meta.dirname, '../..');
const configuration = JSON.parse(
  readFileSync(path.join(root, 'syntaxes/gcode.language-configuration.json'), 'utf8'),
);

const words = (line: string) => line.match(new RegExp(configuration.wordPattern, 'g')) ?? [];

test.each([
  ['#<edge_x>=[#5061+#<_tip>/2]', ['#<edge_x>', '#5061', '#<_tip>', '2']],
  ['##10=#2', ['##10', '#2']],
  ['o<touch_x> call [1]', ['o<touch_x>', 'call', '1']],
  ['G38.2X-10.5F40', ['G', '38.2', 'X', '-10.5', 'F', '40']],
  ['X.5 Y5.', ['X', '.5', 'Y', '5.']],
])('words of %s', (line, expected) => {
  expect(words(line)).toEqual(expected);
});

const indents = (line: string) => new RegExp(configuration.indentationRules.increaseIndentPattern).test(line);
const outdents = (line: string) =>
  new RegExp(configuration.indentationRules.decreaseIndentPattern).test(line);

test.each([
  'o100 sub',
  'O<bore> sub',
  'o1 if [#1 EQ 2]',
  'o1 elseif [1]',
  'o1 while [1]',
  'o1 do',
  'o2 repeat [3]',
  'WHILE[#1LT3]DO1',
])('%s begins an indented part', (line) => {
  expect(indents(line)).toBe(true);
});

test.each(['o100 endsub', 'o1 endif', 'o1 else', 'o1 endwhile', 'o2 endrepeat', 'END1'])(
  '%s ends one',
  (line) => {
    expect(outdents(line)).toBe(true);
  },
);

test.each(['G0 X1', 'o100 call [1]', 'IF[#1EQ2]GOTO10', '#1=2', '(o1 if)', 'o100 return'])(
  '%s does neither',
  (line) => {
    expect(indents(line) || outdents(line)).toBe(false);
  },
);
