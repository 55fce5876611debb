import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Range, SelectionRange } from 'vscode-languageserver';
import { selectionRanges } from '../../server/editor/selectionRanges.ts';
import { openProgram } from './openProgram.ts';

function outwards(from: SelectionRange | undefined): Range[] {
  return from ? [from.range, ...outwards(from.parent)] : [];
}

test('from the name over expressions, word, block, branch and routine to the text', () => {
  const text = 'G21\no<a> sub\no1 if [#1]\n  G1 X[#<my ed|ge> + 2] (deep)\no1 endif\no<a> endsub\nM2';
  const { program, caret } = openProgram(text);
  const lines = text.replace('|', '').split('\n');
  const shown = ({ start, end }: Range) =>
    start.line === end.line
      ? lines[start.line]?.slice(start.character, end.character)
      : `${start.line}-${end.line}`;
  expect(outwards(selectionRanges(program, [caret])[0]).map(shown)).toEqual([
    'my edge',
    '#<my edge>',
    '[#<my edge> + 2]',
    'X[#<my edge> + 2]',
    'G1 X[#<my edge> + 2] (deep)',
    '  G1 X[#<my edge> + 2] (deep)',
    '2-4',
    '1-5',
    '0-6',
  ]);
});

test('every position, inside the text or not, gives ranges that lie in each other', () => {
  const program = openProgram('o<a> sub\r\no1 if [[#1]]\n(c) #2=[#[#3]] %\no1 endif\n\no<a> endsub').program;
  fc.assert(
    fc.property(fc.integer({ min: -2, max: 9 }), fc.integer({ min: -2, max: 30 }), (line, character) => {
      const [innermost, ...wider] = outwards(selectionRanges(program, [{ line, character }])[0]);
      for (const range of wider) {
        expect(range.start.line).toBeLessThanOrEqual(innermost?.start.line ?? 0);
        expect(range.end.line).toBeGreaterThanOrEqual(innermost?.end.line ?? 0);
      }
    }),
  );
});
