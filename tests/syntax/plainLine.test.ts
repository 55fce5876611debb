import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { classifyLine, lineKind } from '../../server/syntax/lineClass.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { letterBit, plainWords, scanPlainLine } from '../../server/syntax/plainLine.ts';
import { randomLine, randomPlainLine } from './randomLines.ts';

const both = Object.values(dialects);

/** Letter and value of each word by the parser, in alphabetical order. */
function parsed(line: string, dialect = dialects.rs274ngc): (readonly [string, unknown])[] {
  const { lineNumber, items } = parseBlock(line, dialect);
  const words = items.map((item) => {
    if (item.kind !== 'word' || item.value.kind !== 'number') return ['?', item.kind] as const;
    return [item.letter, item.value.value] as const;
  });
  return [...(lineNumber ? [['N', lineNumber.value] as const] : []), ...words].sort(([a], [b]) =>
    a < b ? -1 : 1,
  );
}

function scanned(line: string): (readonly [string, unknown])[] {
  const words = plainWords();
  scanPlainLine(`junk${line}junk`, 4, 4 + line.length, words);
  return [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ']
    .filter((letter) => words.present & letterBit(letter))
    .map((letter) => [letter, words.values[letter.charCodeAt(0) - 65]] as const);
}

describe('a plain line', () => {
  it('has the same words by the quick scan as by the parser, no fault and no letter twice', () => {
    let plain = 0;
    const property = fc.property(fc.oneof(randomPlainLine, randomLine), (line) => {
      for (const dialect of both) {
        if (classifyLine(line, 0, line.length, dialect) !== lineKind.plain) continue;
        plain++;
        expect(parseBlock(line, dialect).faults).toEqual([]);
        const words = parsed(line, dialect);
        expect(words.every(([letter]) => letter !== '?')).toBe(true);
        expect(new Set(words.map(([letter]) => letter)).size).toBe(words.length);
        if (!line.startsWith('\ufeff')) expect(scanned(line)).toEqual(words);
      }
    });
    fc.assert(property, { numRuns: 5000 });
    expect(plain).toBeGreaterThan(500);
  });

  it('gives every literal the nearest double, as the parser does', () => {
    const digits = fc.stringMatching(/^[+-]?\d{0,12}(\d\.?|\.\d)\d{0,12}$/);
    const property = fc.property(digits, (written) => {
      const words = plainWords();
      scanPlainLine(`X${written}`, 0, written.length + 1, words);
      expect(words.values[23]).toBe(Number(written));
    });
    fc.assert(property, { numRuns: 2000 });
  });

  it('keeps one memory for all lines', () => {
    const words = plainWords();
    scanPlainLine('G1 X1 Y2', 0, 8, words);
    scanPlainLine('X3', 0, 2, words);
    expect(words.present).toBe(letterBit('X'));
    expect(words.values[23]).toBe(3);
  });
});

describe('a blank line', () => {
  it('is one that the parser finds nothing in', () => {
    const property = fc.property(randomLine, (line) => {
      for (const dialect of both) {
        if (classifyLine(line, 0, line.length, dialect) !== lineKind.blank) continue;
        const { items, lineNumber, blockDelete } = parseBlock(line, dialect);
        expect([items, lineNumber, blockDelete]).toEqual([[], undefined, undefined]);
      }
    });
    fc.assert(property, { numRuns: 1000 });
  });
});
