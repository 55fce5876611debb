import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { readDirective } from '../../server/syntax/directives.ts';
import { lineKind } from '../../server/syntax/lineClass.ts';
import { LineScanner } from '../../server/syntax/lineScanner.ts';
import { readMessage } from '../../server/syntax/messages.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { letterBit, letterIndex } from '../../server/syntax/plainTotals.ts';
import { textBytes } from '../../server/syntax/textBytes.ts';
import type { Comment } from '../../server/syntax/tree.ts';
import { randomLine, randomPlainLine } from './randomLines.ts';

const both = Object.values(dialects);

/** Letter and value of each word by the parser, in alphabetical order. */
function parsed(line: string): (readonly [string, unknown])[] {
  const { lineNumber, items } = parseBlock(line, dialects.macro);
  const words = items
    .flatMap((item) => (item.kind === 'comment' ? [] : [item]))
    .map((item) => {
      if (item.kind !== 'word' || item.value.kind !== 'number') return ['?', item.kind] as const;
      return [item.letter, item.value.value] as const;
    });
  return [...(lineNumber ? [['N', lineNumber.value] as const] : []), ...words].sort(([a], [b]) =>
    a < b ? -1 : 1,
  );
}

/** The class of a line between two others, and its words. */
function scanned(line: string) {
  const scanner = new LineScanner();
  const kind = scanner.scan(textBytes(`before\r${line}\nbehind`), 7, 0);
  expect(scanner.end).toBe(7 + line.length);
  const words = [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ']
    .filter((letter) => scanner.totals.letters & letterBit(letter))
    .map((letter) => [letter, scanner.totals.last(letterIndex(letter))] as const);
  return { kind, words, outsideAscii: scanner.outsideAscii };
}

const commentsOf = (line: string) =>
  parseBlock(line, dialects.rs274ngc).items.flatMap((item) => (item.kind === 'comment' ? [item] : []));

/** Whether anything of the language or of ours reads the comment. */
function acts(line: string, comment: Comment): boolean {
  const { text } = comment;
  const message = readMessage(parseBlock(line, dialects.rs274ngc), comment, dialects.rs274ngc);
  return message !== null || readDirective(text) !== null || text.includes('#');
}

const plainKinds: readonly number[] = [lineKind.plain, lineKind.plainLong];
const faults = (line: string) => both.flatMap((dialect) => parseBlock(line, dialect).faults);

describe('a plain line', () => {
  it('has the same words by the quick scan as by the parser, no fault and no letter twice', () => {
    let plain = 0;
    const property = fc.property(fc.oneof(randomPlainLine, randomLine, nearlyPlain), (line) => {
      const { kind, words } = scanned(line);
      if (!plainKinds.includes(kind)) return;
      plain++;
      const wrong = kind === lineKind.plainLong ? ['bad-line-number'] : [];
      expect(faults(line).map(({ code }) => code)).toEqual(wrong);
      for (const comment of commentsOf(line)) expect(acts(line, comment)).toBe(false);
      const expected = parsed(line);
      expect(expected.every(([letter]) => letter !== '?')).toBe(true);
      expect(new Set(expected.map(([letter]) => letter)).size).toBe(expected.length);
      expect(words).toEqual(expected);
    });
    fc.assert(property, { numRuns: 8000 });
    expect(plain).toBeGreaterThan(250);
  });

  it('gives every literal the nearest double, as the parser does', () => {
    const digits = fc.stringMatching(/^[+-]?\d{0,25}(\d\.?|\.\d)\d{0,25}$/);
    const property = fc.property(digits, (written) => {
      expect(scanned(`X${written}`).words).toEqual([['X', Number(written)]]);
    });
    fc.assert(property, { numRuns: 3000 });
  });

  it.each([
    ['X-0', -0],
    ['x+.5', 0.5],
    ['X-.5', -0.5],
    ['X 5.', 5],
    ['X\t-\u00005', undefined],
    ['X12345678901234567', 12345678901234568],
    ['X0.30000000000000004', 0.30000000000000004],
    ['X9007199254740993', 9007199254740992],
    ['X123456789.5', 123456789.5],
    [`X${'9'.repeat(200)}`, Number('9'.repeat(200))],
    ['X.', undefined],
    ['X1.2.3', undefined],
    ['X1 2', undefined],
    ['X--1', undefined],
    ['X1e5', undefined],
  ])('%j: X is %d', (line, value) => {
    const { kind, words } = scanned(line);
    if (value === undefined) expect(kind).toBe(lineKind.other);
    else expect([kind, words]).toEqual([lineKind.plain, [['X', value]]]);
  });
});

describe('the class of a line', () => {
  const { blank, plain, plainLong, other, percent, touch } = lineKind;

  it.each([
    ['', blank],
    [' \t', blank],
    ['\ufeff', blank],
    [' '.repeat(300), blank],
    ['\ufeffN10 G1 X1', plain],
    ['G00X1', plain],
    ['G2 X1 I1', plain],
    ['G2 X1', other],
    ['G1 X1 I1', other],
    ['G1.', other],
    ['G+1', other],
    ['G04 X1', other],
    ['G4', other],
    ['F-1', other],
    ['S-0', other],
    ['X1 N5', other],
    ['N-5 X1', other],
    ['N12345 X1', plain],
    ['N123456 X1', plainLong],
    ['N000001', plainLong],
    ['X1 X2', other],
    ['X1 ;', plain],
    ['N10 G1 X1 (pass 1) Y2 ; the last (pass', plain],
    ['X1(a)(b)Y2', plain],
    ['N10 (label)', plain],
    ['X1 (Gr\u00f6\u00dfe)', plain],
    ['X1 (probing the bore) (loud) (messages)', other],
    ['X1 (loud, messages, printed)', plain],
    ['G2 X1 R5 (arc)', plain],
    ['(alone)', other],
    ['; alone', other],
    ['(a) N10 X1', other],
    ['(a) X1', plain],
    ['X(a)1', other],
    ['X1(a)2', other],
    ['X1 (a (b)', other],
    ['X1 (open', other],
    ['X1 (a))', other],
    ['X1 (MSG, stop)', other],
    ['X1 ( debug , #1)', other],
    ['X1 (LOGCLOSE)', other],
    ['X1 (\u2028MSG, stop)', other],
    ['X1 (top at #5063)', other],
    ['X1 (probewright: allow syntax - x)', other],
    ['X1 ; Probewrite allow syntax', other],
    ['X1 (a\u001a)', other],
    [`X1 (${'a'.repeat(260)})`, other],
    ['G2 R5', other],
    ['G2 X1 R0', other],
    ['G2 X1 R5 I2', other],
    ['X1\u00a0', other],
    ['X1\u0085', other],
    ['X1\u0158', other],
    ['X\u0158', other],
    ['X1\0', other],
    ['X1\u001a', other],
    [`X1${' '.repeat(255)}`, other],
    ['\ufeff %', percent],
    ['%X1', percent],
    ['N1 G38.2 Z-1', touch],
    ['g 0 3 1 Z-1', touch],
    ['G310', other],
    ['(G31)', other],
    ['; G31', other],
    ['(é) G31', touch],
  ])('%j: %i', (line, kind) => {
    expect(scanned(line).kind).toBe(kind);
  });

  it('of a blank line: one that the parser finds nothing in', () => {
    const property = fc.property(fc.oneof(randomLine, fc.stringMatching(/^[ \t\ufeff]{0,3}$/)), (line) => {
      if (scanned(line).kind !== blank) return;
      const { items, lineNumber, blockDelete } = parseBlock(line, dialects.rs274ngc);
      expect([items, lineNumber, blockDelete]).toEqual([[], undefined, undefined]);
    });
    fc.assert(property, { numRuns: 1000 });
  });

  it('of a line of a megabyte, found in time that grows with the line', () => {
    for (const line of ['X1 '.repeat(350_000), `X${'1'.repeat(1_000_000)}`, '('.repeat(1_000_000)])
      expect(scanned(line).kind).toBe(other);
  });
});

it('tells characters outside ASCII', () => {
  expect(['X1', '(a)', '\ufeffX1', '(é)', '(∅)'].map((line) => scanned(line).outsideAscii)).toEqual([
    false,
    false,
    true,
    true,
    true,
  ]);
});

/** Plain lines with one character put in. */
const nearlyPlain = fc
  .tuple(
    randomPlainLine,
    fc.nat(),
    fc.constantFrom(...'\0\t\u0085\u2028\u00e9\u0158\u03bb-+.N;(\u001a \ufeff09'),
  )
  .map(([line, at, unit]) => {
    const place = at % (line.length + 1);
    return line.slice(0, place) + unit + line.slice(place);
  });
