import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { FormattingOptions } from 'vscode-languageserver';
import { noCalledFiles } from '../../server/analysis/calledFiles.ts';
import { format, formatWhileTyping } from '../../server/editor/formatting.ts';
import { Part } from '../../server/part/part.ts';
import { undisturbed } from '../../server/rehearsal/faults.ts';
import { readSetup } from '../../server/rehearsal/readSetup.ts';
import { stageFor } from '../../server/rehearsal/rehearse.ts';
import { startRun } from '../../server/rehearsal/runOnce.ts';
import { noProfileFile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import { edited, openProgram } from './openProgram.ts';

const two: FormattingOptions = { tabSize: 2, insertSpaces: true };

function formatted(text: string, options = two): string {
  return edited(text, format(openProgram(text).program, options));
}

test('blanks between words, none at ends, bodies indented', () => {
  const text = [
    'o<edge> sub',
    'G1X10Y-5.0   F100   (a comment )  ',
    '   o1 if [#1 GT 2]',
    'g0   z 5',
    '\t#<a>=[ #1 + 2 ]#2=3',
    'o1 elseif [#1 LT 0]',
    'M0',
    'o1 else',
    '(nothing)',
    'o1 endif',
    'o2 do',
    'G4 P1',
    'o2 while [0]',
    'o<edge> endsub',
    '  G0 X0',
    '  ',
    'M2',
  ];
  expect(formatted(text.join('\n')).split('\n')).toEqual([
    'o<edge> sub',
    '  G1 X10 Y-5.0 F100   (a comment )',
    '  o1 if [#1 GT 2]',
    '    g0 z5',
    '    #<a>=[ #1 + 2 ] #2=3',
    '  o1 elseif [#1 LT 0]',
    '    M0',
    '  o1 else',
    '    (nothing)',
    '  o1 endif',
    '  o2 do',
    '    G4 P1',
    '  o2 while [0]',
    'o<edge> endsub',
    'G0 X0',
    '',
    'M2',
  ]);
});

test('tabs where the editor wants them', () => {
  expect(formatted('o1 repeat [2]\nG0 X1\no1 endrepeat', { tabSize: 4, insertSpaces: false })).toBe(
    'o1 repeat [2]\n\tG0 X1\no1 endrepeat',
  );
});

test('macro: loops are indented, what people indent around jumps stays, so do N numbers and corner words', () => {
  const text = [
    'O0100(TITLE)',
    'IF[#1EQ0]GOTO20',
    '  G1X1.,R2.  F100.',
    'N20G0Z5.',
    '  /2 G0X9.',
    'WHILE[#1LT3]DO1',
    '#1=#1+1',
    'DPRNT[X#100[53]**Y]  ',
    'END1',
    'M30',
  ];
  expect(formatted(text.join('\n')).split('\n')).toEqual([
    'O0100(TITLE)',
    'IF[#1EQ0]GOTO20',
    '  G1 X1.,R2. F100.',
    'N20 G0 Z5.',
    '  /2 G0 X9.',
    'WHILE[#1LT3]DO1',
    '  #1=#1+1',
    '  DPRNT[X#100[53]**Y]',
    'END1',
    'M30',
  ]);
});

test.each([
  ['a % line and what is around the program', 'made  by  hand!\n%  title  \nG0 X1\n%  \nG0  X2'],
  ['a line with a fault', 'G1  X1\nG1  X[1  Y2\nG1  Xabc'.replace('G1  X1\n', '')],
  ['a text in another language', 'M104 S200\nG28\nM140 S60\nG1  X1 E-1.0\n'],
  ['a line that would get too long', `${'X1 '.repeat(1)}G1${'#1=1'.repeat(62)}`],
  ['a byte-order mark', '\ufeffG0  X1'],
  ['the end-of-tape mark', 'G0  X1\u001a'],
])('%s stays as it is', (_, text) => {
  expect(formatted(text)).toBe(text);
});

test('where the flow does not fit together, indentation stays', () => {
  const text = 'o1 if [1]\n      G0 X1\no2 endif\nM2';
  expect(formatted(text)).toBe(text);
});

test('line endings stay, mixed ones too', () => {
  const text = 'o1 if [1]\r\nG0  X1\r\no1 endif\rG0  X2  \nM2';
  const { program } = openProgram(text);
  let document = OpenDocument.open(program.uri, 'gcode', 1, text);
  const changes = format(program, two).reverse();
  document = document.changed(
    2,
    changes.map(({ range, newText }) => ({ range, text: newText })),
  );
  expect(document.text.toString()).toBe('o1 if [1]\r\n  G0 X1\r\no1 endif\rG0 X2\nM2');
});

test('a range is formatted as deep as the whole would be, and nothing outside of it', () => {
  const text = 'o1 if [1]\nG0  X1\nG0  X2\nG0  X3\no1 endif';
  const range = { start: { line: 2, character: 0 }, end: { line: 3, character: 0 } };
  expect(edited(text, format(openProgram(text).program, two, range))).toBe(
    'o1 if [1]\nG0  X1\n  G0 X2\nG0  X3\no1 endif',
  );
  const nowhere = { start: { line: 90, character: 0 }, end: { line: 99, character: 0 } };
  expect(format(openProgram(text).program, two, nowhere)).toEqual([]);
});

test.each([
  ['o1 if [1]\n|', '\n', 'o1 if [1]\n  '],
  ['o1 if [1]\n  G0  X1\n  o1 endif|', 'f', 'o1 if [1]\n  G0  X1\no1 endif'],
  ['o<a> sub\n  o<a> endsub\n|', '\n', 'o<a> sub\no<a> endsub\n'],
  ['WHILE[1]DO1\n  #1=1\n  END1|', '1', 'WHILE[1]DO1\n  #1=1\nEND1'],
  ['o1 if [1]\n    M1|', '1', 'o1 if [1]\n    M1'],
  ['o1 if [1]\n(half|', 'f', 'o1 if [1]\n(half'],
])('while typing: %j and then %j', (marked, typed, expected) => {
  const { program, caret } = openProgram(marked);
  expect(edited(marked.replace('|', ''), formatWhileTyping(program, caret, typed, two))).toBe(expected);
});

test('positions outside of the text do nothing', () => {
  const { program } = openProgram('G0 X1');
  expect(formatWhileTyping(program, { line: 7, character: 0 }, '\n', two)).toEqual([]);
  expect(formatWhileTyping(program, { line: -1, character: 0 }, '\n', two)).toEqual([]);
});

const pieces = [
  'G1',
  'x 1',
  'X-[#1+2]',
  '(c )',
  '#1=2',
  '/',
  'N5',
  'o1 if [1]',
  'o1 endif',
  'o1 else',
  '%',
  ' ',
  '\t',
  ';e ',
  'WHILE[#1LT2]DO1',
  'END1',
  'Z',
  ',R2',
  '#<a b>=1',
];

test('twice is the same as once, and every line reads as before', () => {
  const line = fc.array(fc.constantFrom(...pieces), { maxLength: 5 }).map((each) => each.join(''));
  fc.assert(
    fc.property(fc.array(line, { maxLength: 12 }), (lines) => {
      const once = formatted(lines.join('\n'));
      expect(formatted(once)).toBe(once);
      const [before, after] = [lines.join('\n'), once].map((text) => openProgram(text).program.source);
      for (let at = 0; at < lines.length; at++)
        expect(after?.block(at).items.map(({ kind }) => kind)).toEqual(
          before?.block(at).items.map(({ kind }) => kind),
        );
    }),
    { numRuns: 150 },
  );
});

const { setup: anySetup } = readSetup(
  JSON.stringify({
    start: [0, 0, 100],
    tool: 1,
    tools: Object.fromEntries(Array.from({ length: 99 }, (_, at) => [at + 1, { length: 50, diameter: 4 }])),
  }),
);

/** What a run does on the rehearsal's machine where every touch meets something at its target: each block with what it leaves. */
function motions(text: string): unknown[] {
  const { source, profile } = OpenDocument.open('file:///a.ngc', 'gcode', 1, text).program(noProfileFile);
  if (anySetup === null) throw new Error('the setup of this test');
  const { program, parts } = stageFor(source, anySetup, profile.profile, noCalledFiles);
  const { run, machine } = startRun(program, parts, undisturbed(anySetup), new Part([]));
  const { state } = run;
  machine.touch = ({ to }) => {
    state.position = [...to];
    state.latched = [...to];
    state.success = 1;
  };
  const seen: unknown[] = [];
  while (run.blocks < 800 && run.next())
    seen.push([
      run.line,
      state.position,
      [...state.locals],
      [...state.globals],
      state.latched,
      state.modes.motion,
    ]);
  return [...seen, machine.log.ended, machine.log.messages, machine.log.collisions];
}

const folders = [
  'client/walkthrough/demo',
  'tests/programs/habits',
  'tests/programs/faults',
  'tests/programs/milling',
];
const samples = folders.flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => /\.(ngc|nc)$/.test(name))
    .map((name) => path.join(folder, name)),
);

test.each(samples)('%s runs the same before and after, squeezed or spread', (name) => {
  const text = readFileSync(name, 'utf8');
  const spread = text.replace(/^(?![%(])[^(;\n]*/gm, (line) => line.replace(/ (?=[A-Z])/g, '   '));
  const run = motions(text);
  for (const variant of [text, spread]) {
    const once = formatted(variant);
    expect(formatted(once)).toBe(once);
    expect(motions(once)).toEqual(run);
  }
});

test('the demo is written as the formatter writes', () => {
  for (const name of samples.filter((each) => each.endsWith('.ngc') && each.startsWith('client')))
    expect([name, formatted(readFileSync(name, 'utf8'))]).toEqual([name, readFileSync(name, 'utf8')]);
});
