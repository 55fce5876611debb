import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { letterBit, letterIndex } from '../../server/syntax/plainTotals.ts';
import { runTotals } from '../../server/syntax/runTotals.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

const from = (text: string) => Source.from(SourceText.from(text), dialects.rs274ngc);

const milling = (lines: number) =>
  Array.from({ length: lines }, (_, line) => {
    const x = (Math.sin(line) * 100).toFixed(4);
    return `N${line} G1 X${x}${line % 3 === 0 ? ` Y-${line % 7}.1` : ''}${line % 10 === 4 ? ` F${line}` : ''}`;
  });

describe('what a plain run leaves behind', () => {
  it('is the last value of each letter, the last feed and the sum of the steps', () => {
    const { totals, end } = runTotals(from('G1 X1.5 F100\n\nX2 Y-3\nF200\nY4\nM2\nX9'), 0, 99, {
      sums: true,
    });
    expect(end).toBe(5);
    const met = [...'FGXYZ'].filter((letter) => totals.letters & letterBit(letter));
    expect(met).toEqual(['F', 'G', 'X', 'Y']);
    expect(met.map((letter) => totals.last(letterIndex(letter)))).toEqual([200, 1, 2, 4]);
    expect([totals.sum(letterIndex('X')), totals.sum(letterIndex('Y'))]).toEqual([3.5, 1]);
    expect([totals.feedLine, totals.feedStart, totals.feedEnd]).toEqual([3, 0, 4]);
  });

  it('says where the last feed stands', () => {
    const { totals } = runTotals(from('\ufeffX1\r\nN5 f 1.5 Z2'), 0, 9, { sums: true });
    expect([totals.feedLine, totals.feedStart, totals.feedEnd]).toEqual([1, 3, 8]);
  });

  it('ends with the program, and where it is told to', () => {
    const text = '%\nX1\nX2\n%\nX3\n';
    expect(runTotals(from(text), 1, 9, { sums: true })).toMatchObject({ end: 3 });
    expect(runTotals(from('X1\nX2\nX3'), 0, 2, { sums: true }).totals.last(letterIndex('X'))).toBe(2);
  });

  it('is the same however the lines are cut into chunks', () => {
    const lines = milling(2000);
    const whole = from(lines.join('\n'));
    const property = fc.property(
      fc.nat({ max: 1999 }),
      fc.nat({ max: 2100 }),
      fc.array(fc.nat({ max: 1999 }), { maxLength: 12 }),
      (first, last, edited) => {
        let source = whole;
        // Lines put in and taken out again leave chunks of another length.
        for (const line of edited) {
          source = source.edit({ line, start: 0, endLine: line, end: 0, text: '\n'.repeat(200) });
          source = source.edit({ line, start: 0, endLine: line + 200, end: 0, text: '' });
        }
        expect(source.text.toString()).toBe(whole.text.toString());
        expect(known(source, first, last)).toEqual(known(whole, first, last));
        expect(known(source, first, last)).toEqual(oneByOne(lines, first, last));
      },
    );
    fc.assert(property, { numRuns: 60 });
  });
});

const letters = ['X', 'Y', 'F', 'N'];

function known(source: Source, first: number, last: number) {
  const { totals, first: counted, end } = runTotals(source, first, last, { sums: true });
  const met = letters.filter((letter) => totals.letters & letterBit(letter));
  return {
    end,
    feedLine: totals.feedLine < 0 ? -1 : counted + totals.feedLine,
    last: met.map((letter) => totals.last(letterIndex(letter))),
    steps: ['X', 'Y'].map((letter) => totals.sum(letterIndex(letter)).toFixed(9)),
  };
}

/** The same by the parser; its sums round at each step. */
function oneByOne(lines: readonly string[], first: number, last: number) {
  const values = new Map<string, number>();
  const steps = new Map<string, number>();
  let feedLine = -1;
  for (const [index, line] of lines.slice(first, last).entries()) {
    const { items, lineNumber } = parseBlock(line, dialects.rs274ngc);
    values.set('N', lineNumber?.value ?? Number.NaN);
    for (const item of items) {
      if (item.kind !== 'word' || item.value.kind !== 'number') continue;
      values.set(item.letter, item.value.value);
      steps.set(item.letter, (steps.get(item.letter) ?? 0) + item.value.value);
      if (item.letter === 'F') feedLine = first + index;
    }
  }
  return {
    end: Math.max(first, Math.min(last, lines.length)),
    feedLine,
    last: letters.filter((letter) => values.has(letter)).map((letter) => values.get(letter)),
    steps: ['X', 'Y'].map((letter) => (steps.get(letter) ?? 0).toFixed(9)),
  };
}
