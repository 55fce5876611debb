import fc from 'fast-check';
import { expect, test } from 'vitest';
import { editsBetween, SemanticTokensOf } from '../../server/editor/semanticTokens.ts';
import { tokenModifiers, tokenTypes } from '../../server/editor/tokenLegend.ts';
import { noProfileFile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import { openProgram, uri } from './openProgram.ts';

const meaning = { amount: 'meaning', encoding: 'utf-16' } as const;
const everything = { amount: 'everything', encoding: 'utf-16' } as const;

/** Tokens as `text type modifiers`, in order. */
function shown(text: string, data: readonly number[]): string[] {
  const lines = text.split('\n');
  const found: string[] = [];
  let line = 0;
  let start = 0;
  for (let at = 0; at < data.length; at += 5) {
    const [down = 0, along = 0, length = 0, type = 0, bits = 0] = data.slice(at, at + 5);
    line += down;
    start = down > 0 ? along : start + along;
    const modifiers = tokenModifiers.filter((_, index) => bits & (1 << index));
    const written = lines[line]?.slice(start, start + length);
    found.push([written, tokenTypes[type], ...modifiers].join(' '));
  }
  return found;
}

function tokens(text: string, options: ConstructorParameters<typeof SemanticTokensOf>[0] = meaning) {
  return shown(text, new SemanticTokensOf(options).full(openProgram(text).program).data);
}

test('rs274ngc: touches, routines, labels and whose each parameter is', () => {
  const text = [
    'o<edge> sub',
    'G38.2 X#1 F[#<_slow> / 2]',
    '#<found> = [#5061 + ABS[#<off>]]',
    'o1 if [#5070 EQ 0]',
    '(DEBUG, at #<found>) (probewright: allow syntax - a test)',
    'o1 endif',
    'o<edge> endsub',
    'o<edge> call [5]',
    'G1 X1 F100',
  ].join('\n');
  expect(tokens(text)).toEqual([
    'o<edge> function definition',
    'G38.2 event',
    '#1 parameter',
    '#<_slow> variable static',
    '#<found> variable modification',
    '#5061 variable readonly defaultLibrary',
    'ABS function defaultLibrary',
    '#<off> variable',
    'o1 label',
    '#5070 variable readonly defaultLibrary',
    '#<found> variable',
    'o1 label',
    'o<edge> function',
    'o<edge> function',
  ]);
});

test('macro: programs, arguments, and the N numbers that something jumps to', () => {
  const text = [
    'O0001',
    'N10 G65 P9001 A1. Z#101',
    'N20 IF[#5063GT#[100+1]]GOTO40',
    'N30 G31 Z-5. F100',
    'N40 X1.',
    'M98 P9001',
    'G66 P9001 A1.',
    'O9001',
    'M99',
  ].join('\n');
  expect(tokens(text)).toEqual([
    'O0001 function definition',
    'P9001 function',
    'A parameter',
    'Z parameter',
    '#101 variable static',
    '#5063 variable readonly defaultLibrary',
    '# variable',
    '40 label',
    'G31 event',
    'N40 label definition',
    'P9001 function',
    'P9001 function',
    'A parameter',
    'O9001 function definition',
  ]);
});

test('an editor without a grammar gets letters, numbers, keywords and comments too', () => {
  expect(tokens('(probewright: dialect rs274ngc)', everything)).toEqual([
    '(probewright: dialect rs274ngc) comment documentation',
  ]);
  expect(tokens('N1 G1 X1.5 (way)\no1 if [1 GT 2]\no1 endif', everything)).toEqual([
    'N1 label',
    'G1 keyword',
    'X property',
    '1.5 number',
    '(way) comment',
    'o1 label',
    'if keyword',
    '1 number',
    '2 number',
    'o1 label',
    'endif keyword',
  ]);
  expect(tokens('WHILE[#1LT3]DO1\nEND1\nIF[#1EQ1]THEN#2=1', everything)).toEqual(
    expect.arrayContaining(['WHILE keyword', 'DO keyword', 'END keyword', 'IF keyword', 'THEN keyword']),
  );
});

test('lines outside the program and lines of prose have no tokens', () => {
  expect(tokens('made on Monday #1\n%\nG31 Z1 #2=1\n%\n#3=1')).toEqual([
    'G31 event',
    '#2 parameter modification',
  ]);
  expect(tokens('')).toEqual([]);
});

test('a range has the tokens of its lines, counted from the start of the file', () => {
  const text = '#1=1\n#2=2\n#3=3\n#4=4';
  const { program } = openProgram(text);
  const of = new SemanticTokensOf(meaning);
  const range = (from: number, to: number) =>
    shown(
      text,
      of.range(program, { start: { line: from, character: 0 }, end: { line: to, character: 0 } }).data,
    );
  expect(range(1, 2)).toEqual(['#2 parameter modification', '#3 parameter modification']);
  expect(range(-5, 99)).toHaveLength(4);
  expect(range(3, 1)).toEqual([]);
  expect(range(99, 100)).toEqual([]);
});

test('columns of a client that counts bytes or characters', () => {
  const { program } = openProgram('(é😀) #1=1');
  const at = (encoding: 'utf-8' | 'utf-16' | 'utf-32') =>
    new SemanticTokensOf({ amount: 'meaning', encoding }).full(program).data.slice(1, 3);
  expect(at('utf-16')).toEqual([6, 2]);
  expect(at('utf-8')).toEqual([9, 2]);
  expect(at('utf-32')).toEqual([5, 2]);
});

const blocks = ['G1 X1', '#1=2', 'o<a> call [#1]', 'G38.2 Z#<x>', '(MSG, é)', '%', 'N7 G0', 'GOTO7', ''];

test('after any edits the delta applied to the last answer is the full answer of a fresh start', () => {
  const edit = fc.record({ line: fc.nat(40), count: fc.nat(3), lines: fc.array(fc.constantFrom(...blocks)) });
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...blocks), { maxLength: 30 }), fc.array(edit), (start, edits) => {
      const kept = new SemanticTokensOf(meaning);
      let document = OpenDocument.open(uri, 'gcode', 1, start.join('\n'));
      let last = kept.full(document.program(noProfileFile));
      let data = last.data;
      for (const { line, count, lines } of edits) {
        const range = { start: { line, character: 0 }, end: { line: line + count, character: 0 } };
        document = document.changed(document.version + 1, [{ range, text: lines.join('\n') }]);
        const program = document.program(noProfileFile);
        const answer = kept.delta(program, last.resultId);
        expect('edits' in answer).toBe(true);
        if ('edits' in answer)
          for (const { start: at, deleteCount, data: added = [] } of answer.edits)
            data = [...data.slice(0, at), ...added, ...data.slice(at + deleteCount)];
        last = { data, resultId: answer.resultId ?? '' };
        expect(data).toEqual(new SemanticTokensOf(meaning).full(program).data);
      }
    }),
    { numRuns: 60 },
  );
});

test('an answer that is not known any more is given in full, an unchanged one as no edits', () => {
  const { program } = openProgram('#1=1');
  const of = new SemanticTokensOf(meaning);
  const { resultId } = of.full(program);
  expect(of.delta(program, 'of another start')).toHaveProperty('data');
  expect(of.full(program).resultId).not.toBe(resultId);
  expect(editsBetween([1, 2, 3, 4, 5], [1, 2, 3, 4, 5])).toEqual([]);
  expect(editsBetween([1, 1], [1, 1, 1])).toEqual([{ start: 2, deleteCount: 0, data: [1] }]);
});

test('an edit reads its own chunk again and no other', () => {
  const text = Array.from({ length: 20_000 }, (_, line) =>
    line % 3 === 0 ? `#${line + 100}=1` : 'G1 X1',
  ).join('\n');
  const of = new SemanticTokensOf(meaning);
  let document = OpenDocument.open(uri, 'gcode', 1, text);
  of.full(document.program(noProfileFile));
  const before = of.cache.chunksRead;
  const range = { start: { line: 9000, character: 0 }, end: { line: 9000, character: 5 } };
  document = document.changed(2, [{ range, text: '#9=9' }]);
  of.full(document.program(noProfileFile));
  expect(before).toBeGreaterThan(50);
  expect(of.cache.chunksRead - before).toBeLessThanOrEqual(2);
});
