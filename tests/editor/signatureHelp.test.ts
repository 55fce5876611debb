import { expect, test } from 'vitest';
import type { CalledFiles } from '../../server/analysis/calledFiles.ts';
import { argumentsOfCall } from '../../server/editor/callArguments.ts';
import { signatureHelp } from '../../server/editor/signatureHelp.ts';
import { noProfileFile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import { openProgram, uri } from './openProgram.ts';

/** The label with its active parameter in braces; null: no help. */
function helpAt(marked: string): string | null {
  const { program, caret } = openProgram(marked);
  const help = signatureHelp(program, caret);
  const [signature] = help?.signatures ?? [];
  if (!signature) return null;
  const active = signature.parameters?.[help?.activeParameter ?? -1]?.label;
  if (!Array.isArray(active)) return signature.label;
  const [from, to] = active;
  return `${signature.label.slice(0, from)}{${signature.label.slice(from, to)}}${signature.label.slice(to)}`;
}

const sub = [
  '(looks for an edge; #1 = reach, #3: side)',
  'o<edge> sub',
  '#<feed> = #2',
  'G38.2 X#1 F#<feed>',
  '#4 = 1',
  'G0 Y#4',
  'o<edge> endsub',
  '',
].join('\n');

test.each([
  ['o<edge> call |', 'o<edge> call {[#1 reach]} [#2 feed] [#3 side]'],
  ['o<edge> call [1|', 'o<edge> call {[#1 reach]} [#2 feed] [#3 side]'],
  ['N5 O<Edge> call [1] [[2]+|', 'o<edge> call [#1 reach] {[#2 feed]} [#3 side]'],
  ['o<edge> call [1] [2] [3] |', 'o<edge> call [#1 reach] [#2 feed] [#3 side]'],
  ['o<edge> call [SQRT[|', 'SQRT[{value}]'],
  ['o<unheard> call [|', null],
  ['(o<edge> call [|', null],
])('a call in rs274ngc: %s', (call, expected) => {
  expect(helpAt(sub + call)).toBe(expected);
});

test.each([
  ['O1\nG65 P9001 |\nM30\nO9001\n#100=#1\nG31 X#24 F#9\nM99', 'G65 P9001  A #1  F #9 feed  X #24 X'],
  ['O1\nG65 P9001 A1. F|\nM30\nO9001\n#100=#1\nG31 X#24 F#9\nM99', 'G65 P9001  A #1  {F #9 feed}  X #24 X'],
  ['O1\nG65 P9001 |\nM30\nO9001\nM99', 'G65 P9001'],
  ['O1\nG66 P9001 F|\nM30\nO9001\nG31 X#24 F#9\nM99', 'G66 P9001  {F #9 feed}  X #24 X'],
  ['#1=ATAN[1]/[|', 'ATAN[y]/[{x}]'],
  ['#1=ATAN[|', 'ATAN[{y}]/[x]'],
  ['O1\n#1=POW[2,|', 'POW[base,{power}]'],
])('a macro call, a function: %s', (marked, expected) => {
  expect(helpAt(`(probewright: dialect macro)\n${marked}`)).toBe(expected);
});

test('words whose meaning hangs on the code', () => {
  expect(helpAt('G10 L2 P|')).toMatch(/^G10 .*\{P\}.*X Y Z/);
  expect(helpAt('G2 X1 I|')).toBe('G2  P  {I J K}  R');
  expect(helpAt('G0 X|')).toBeNull();
});

test('positions that are not there give nothing', () => {
  const { program } = openProgram('G0');
  expect(signatureHelp(program, { line: 9, character: 0 })).toBeNull();
  expect(signatureHelp(program, { line: -1, character: -1 })).toBeNull();
  expect(signatureHelp(program, { line: 0, character: 99 })).toBeNull();
});

test('what a body sets before it reads it is no argument', () => {
  const { program } = openProgram(`${sub}M2`);
  expect(argumentsOfCall(program, 'edge')?.map(({ number, use }) => [number, use])).toEqual([
    [1, 'line 4: X#1'],
    [2, 'line 3: #<feed> = #2'],
    [3, 'not used by the subroutine'],
  ]);
});

test('a subroutine in another file', () => {
  const file = OpenDocument.open(
    'file:///job/far.ngc',
    'gcode',
    1,
    'o<far> sub (#1 = depth)\nG38.2 Z#1 F5\no<far> endsub',
  );
  const { source } = file.program(noProfileFile);
  const called: CalledFiles = { files: [{ uri: file.uri, source }], lead: () => ({ file: 0 }) };
  const program = OpenDocument.open(uri, 'gcode', 1, 'G21\no<far> call [').program(noProfileFile, called);
  const help = signatureHelp(program, { line: 1, character: 13 });
  expect(help?.signatures[0]?.label).toBe('o<far> call [#1 depth]');
  expect(help?.signatures[0]?.parameters?.[0]?.documentation).toBe('line 2 of far.ngc: Z#1');
});
