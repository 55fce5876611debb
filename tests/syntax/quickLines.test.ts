import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { code } from '../../server/syntax/charCodes.ts';
import { lineKind } from '../../server/syntax/lineClass.ts';
import { letterBit, letterIndex, PlainTotals } from '../../server/syntax/plainTotals.ts';
import { QuickLines } from '../../server/syntax/quickLines.ts';
import { type Behind, LineMemory, linesPerChunk, scanLines } from '../../server/syntax/scanLines.ts';
import { textBytes } from '../../server/syntax/textBytes.ts';
import { randomLine, randomPlainLine } from './randomLines.ts';

const letters = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'];

function wordsOf(totals: PlainTotals) {
  const met = letters.filter((letter) => totals.letters & letterBit(letter));
  return met.map((letter) => [letter, totals.last(letterIndex(letter))] as const);
}

/** The chunks of a text, and what each leaves behind; `incremental`: without the quick way. */
function scanned(text: string, incremental: boolean, behind: Behind = 'nothing') {
  const memory = new LineMemory(4);
  memory.incremental = incremental;
  const chunks = [];
  for (let from = 0; ; ) {
    // The hint of a G90 among the lines would let the quick way in.
    memory.incremental = incremental;
    const bytes = textBytes(text);
    const lines = scanLines(bytes, { from, to: text.length, behind, most: linesPerChunk }, memory);
    if (!lines) return chunks;
    const { count, starts, kinds, at, kindsMet, outsideAscii, totals, end, isLast } = lines;
    chunks.push({
      starts: [...starts.subarray(at, at + count)],
      kinds: [...kinds.subarray(at, at + count)],
      totals: totals && {
        words: wordsOf(totals),
        feed: [totals.feedLine, totals.feedStart, totals.feedEnd],
      },
      rest: { kindsMet, outsideAscii, end, isLast },
    });
    if (isLast) return chunks;
    from = end;
  }
}

const usual = fc
  .tuple(
    fc.constantFrom('', 'N10 ', 'n123456 ', 'N1', '\ufeff'),
    fc.constantFrom('', 'G1 ', 'g00', 'G2', 'G03 ', 'G4 ', 'G1.', 'G91 '),
    fc.array(
      fc
        .tuple(
          fc.constantFrom(...'XYZABCIJKRx'),
          fc.constantFrom('', '', '-', '+', ' ', '--'),
          fc.constantFrom('1', '12.5', '.25', '0', '-', '.', '3.', '1234567890.125', '7.0.1'),
          fc.constantFrom('', ' ', '\t', '(a)', '  '),
        )
        .map((parts) => parts.join('')),
      { maxLength: 4 },
    ),
    fc.constantFrom('', '', 'F300', ' F-1', 'S9000', ' f2.5 ', ';', '(MSG, a)'),
  )
  .map(([number, code, words, rest]) => `${number}${code}${words.join('')}${rest}`);
const line = fc.oneof(usual, usual, usual, randomPlainLine, randomLine, fc.constantFrom('', ' '));
const ending = fc.constantFrom('\n', '\n', '\r\n', '\r');

describe('lines read the quick way', () => {
  it('are what the scanner makes of them, wherever a text is cut', () => {
    let quick = 0;
    const property = fc.property(
      fc.oneof(...[3, 30].map((maxLength) => fc.array(fc.tuple(line, ending), { maxLength }))),
      fc.constantFrom<Behind>('nothing', 'more', 'chunk'),
      fc.nat({ max: 40 }),
      (lines, behind, left) => {
        const whole = lines.map((parts) => parts.join('')).join('');
        const text = whole.slice(0, Math.max(0, whole.length - left));
        const found = scanned(text, false, behind);
        expect(found).toEqual(scanned(text, true, behind));
        quick += found.filter(({ totals }) => totals !== null).length;
      },
    );
    fc.assert(property, { numRuns: 3000 });
    expect(quick).toBeGreaterThan(300);
  });

  it.each([
    ['N10 G1 X-28.4996 Y.5 Z3.\n', 1],
    ['G1 X1\r\nG01Y2\r\n', 2],
    ['G2 X1 I-1\n\n \t\ng3 x5 y6 j0.5 f100 s900\n', 4],
    ['G1 X1\nG1 X1 (a)\n', 1],
    ['G1 X1\rX2\n', 0],
    ['X1\nG2 X1\n', 1],
    ['X1\nX1 R5\n', 1],
    ['X1\nN123456 X1\n', 1],
    ['X1\nX1 X2\n', 1],
    ['X1\nX2', 1],
    [`X1\nX1${' '.repeat(300)}\n`, 1],
  ])('%j: so many lines are', (text, count) => {
    const quick = new QuickLines();
    const starts = new Uint32Array(9);
    const kinds = new Uint8Array(9);
    const bytes = textBytes(text);
    expect(bytes[text.length]).toBe(code.lineFeed);
    const stretch = { from: 0, to: text.length, line: 0, mostLines: 9, lastStart: 9999 };
    quick.read(bytes, stretch, { starts, kinds, at: 0, base: 0 }, new PlainTotals());
    expect(quick.count).toBe(count);
    const lines = text.split(/\r\n|\n/).slice(0, count);
    expect([...kinds.subarray(0, count)]).toEqual(
      lines.map((each) => (each.trim() ? lineKind.plain : lineKind.blank)),
    );
    expect(quick.end).toBe(lines.reduce((sum, each) => sum + each.length, 0) + endings(text, count));
  });
});

function endings(text: string, count: number): number {
  return [...text.matchAll(/\r\n|\n/g)].slice(0, count).reduce((sum, [each]) => sum + each.length, 0);
}

it('sums are not given where none were made', () => {
  const memory = new LineMemory(1);
  const text = 'X1\nX2.5\n';
  const stretch = { from: 0, to: text.length, behind: 'chunk', most: 9 } as const;
  const totals = scanLines(textBytes(text), stretch, memory)?.totals;
  expect(() => totals?.sum(letterIndex('X'))).toThrow('No sums');
  expect(totals?.last(letterIndex('X'))).toBe(2.5);
});
