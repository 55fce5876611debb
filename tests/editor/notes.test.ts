import { expect, test } from 'vitest';
import { codeLenses, resolveCodeLens } from '../../server/editor/codeLens.ts';
import { inlayHints, resolveInlayHint } from '../../server/editor/inlayHints.ts';
import { type NotesLevel, notesLevel } from '../../server/editor/notes.ts';
import { capable, openProgram } from './openProgram.ts';

const everywhere = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

/** The program with its hints written in, in braces. */
function hinted(text: string, level: NotesLevel): string {
  const lines = text.split('\n');
  for (const { position, label } of inlayHints(openProgram(text).program, everywhere, level).reverse()) {
    const line = lines[position.line] ?? '';
    lines[position.line] = `${line.slice(0, position.character)}{${label}}${line.slice(position.character)}`;
  }
  return lines.join('\n');
}

const touches = [
  'G21 G91 G94 F50',
  'G38.2 Z-10',
  'G90 G38.2 Z-20 F20 (down)',
  '#1 = [#5063 + #5063]',
  'G0 Z5',
  'M2',
];

test('minimal: modes and feed of touches where they were set elsewhere, and what the control holds', () => {
  expect(hinted(touches.join('\n'), 'minimal').split('\n')).toEqual([
    'G21 G91 G94 F50',
    'G38.2 Z-10{G91 · F 50 mm/min}',
    'G90 G38.2 Z-20 F20 (down)',
    '#1 = [#5063{touched Z} + #5063]',
    'G0 Z5',
    'M2',
  ]);
});

test('all: every moving block, every time', () => {
  expect(hinted(touches.join('\n'), 'all').split('\n').slice(3, 5)).toEqual([
    '#1 = [#5063{touched Z} + #5063{touched Z}]',
    'G0 Z5{G90 · mm}',
  ]);
});

test('all: arguments of calls by what the subroutine takes them for', () => {
  const oWords = '(#1 = reach)\no<in> sub\nG91 G38.2 X#1 F#2\no<in> endsub\no<in> call [5] [#3]\nM2';
  expect(hinted(oWords, 'all')).toContain('o<in> call {reach:}[5] {feed:}[#3]');
  const macro = 'O1\nG65 P9001 A1. Z#101\nM30\nO9001(#1: REACH)\nG31 X#1 F#26\nM99';
  expect(hinted(macro, 'all')).toContain('G65 P9001 {reach:}A1. {feed:}Z#101');
  expect(hinted(macro, 'minimal')).toContain('G65 P9001 A1. Z#101\n');
  expect(hinted(macro.replace('G65', 'G66'), 'all')).toContain('G66 P9001 {reach:}A1. {feed:}Z#101');
});

test('off, modes that nothing set, and lines that are not there have no hints', () => {
  expect(hinted(touches.join('\n'), 'off')).toBe(touches.join('\n'));
  expect(hinted('G38.2 Z-10 F50\nM2', 'minimal')).toBe('G38.2 Z-10 F50\nM2');
  const { program } = openProgram('G38.2 Z-1');
  const beyond = { start: { line: 50, character: 0 }, end: { line: 40, character: 0 } };
  expect(inlayHints(program, beyond, 'all')).toEqual([]);
});

test('a hint tells more when the pointer rests on it', () => {
  const [hint] = inlayHints(openProgram('#1 = #5063').program, everywhere, 'minimal');
  expect(hint && resolveInlayHint(hint).tooltip).toEqual({
    kind: 'markdown',
    value: '`#5063` — Z of the last touch, work coordinates',
  });
  const bare = { position: { line: 0, character: 0 }, label: 'of another server' };
  expect(resolveInlayHint(bare)).toBe(bare);
});

test('what a client says of the notes', () => {
  expect(['off', 'all', 'minimal', 'loud', undefined, 3].map(notesLevel)).toEqual([
    'off',
    'all',
    'minimal',
    'minimal',
    'minimal',
    'minimal',
  ]);
});

const calibrated = {
  probe: {
    tipDiameter: 6,
    repeatability: 0.001,
    runout: 0,
    overtravel: { lateral: 5 },
    calibration: { effectiveDiameter: 6, expandedUncertainty: 0, feed: 60 },
  },
  machine: { tripLatency: 0, latchPeriod: 0, resolution: 0, positioningUncertainty: 0, reactionTime: 0 },
};

/** Each lens as `line: words`. */
function lenses(text: string, level: NotesLevel = 'minimal'): string[] {
  const { program } = openProgram(text, calibrated);
  return codeLenses(program, level, capable).map((lens) => {
    expect(lens.command).toBeUndefined();
    return `${lens.range.start.line}: ${resolveCodeLens(lens, program).command?.title}`;
  });
}

test('a lens stands over each routine that touches, with the error of the datums that it writes', () => {
  const text = [
    'o<in> sub',
    'G38.2 X#1 F60',
    'o<in> endsub',
    'o<out> sub',
    'G0 Z50',
    'o<out> endsub',
    '%'.replace('%', ''),
    'G21 G90 G94 G54',
    'G0 X0 Y0',
    'G38.2 X-10 F60',
    '#<left> = #5061',
    'G0 X0',
    'G38.2 Y-10 F60',
    '#<front> = #5062',
    'G0 Y0',
    'G10 L2 P1 X[#<left> - 3] Y[#<front> - 3]',
    'o<in> call [5]',
    'M2',
  ].join('\n');
  // U = 1.96·1 µm of repeatability, no bias: D = 6 is taken off as 3 on either side.
  expect(lenses(text)).toEqual(['0: 1 touch', '7: 2 touches · G54 X ±2.0 µm · G54 Y ±2.0 µm']);
  expect(lenses(text, 'off')).toEqual([]);
});

test('in the macro dialect a lens stands over the O number; a program without touches has none', () => {
  expect(lenses('O0001\nG21 G90 G94\nG31 Z-10. F60.\nM30')).toEqual(['0: 1 touch']);
  expect(lenses('O0001\nG21 G90 G94\nG1 Z-10. F60.\nM30')).toEqual([]);
});

test('a datum whose error nobody knows says so, and a lens of a routine that is gone stays empty', () => {
  const text = 'G21 G90 G94 G54\nG38.2 X-10 F60\nG10 L2 P1 X[#5061 * #5061]\nM2';
  expect(lenses(text)).toEqual(['0: 1 touch · G54 X error not known']);
  const { program } = openProgram(text);
  const gone = { range: everywhere, data: { uri: program.uri, header: 77 } };
  expect(resolveCodeLens(gone, program).command?.title).toBe('');
});

test('minimal names the unit where it is not that of the profile', () => {
  expect(hinted('G20 G91 G94\nG38.2 Z-1 F2\nM2', 'minimal')).toContain('F2{G91 · in}');
});

test.each([
  ['#1 = #5070', '#5070{touched?}'],
  ['(probewright: dialect macro)\n#3000=5', '#3000{alarm}=5'],
  ['(probewright: dialect macro)\n#1=#5022', '#5022{machine Y}'],
  ['#1 = #5221', '#5221{G54 offset of X}'],
  ['#1 = #<_z>', '#<_z>{current Z in work coordinates}'],
])('parameters of the control in a few words: %s', (text, expected) => {
  expect(hinted(text, 'minimal')).toContain(expected);
});
