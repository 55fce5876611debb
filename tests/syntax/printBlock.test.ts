import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { printBlock, printExpression, printWord } from '../../server/syntax/printBlock.ts';
import { outlineExpression } from './outline.ts';
import { randomExpression, randomLine } from './randomLines.ts';

function parsedValue(text: string, dialect = dialects.rs274ngc) {
  const block = parseBlock(`X${text}`, { ...dialect, maximumLineLength: null });
  const [word] = block.items;
  return word?.kind === 'word' && block.faults.length === 0 ? word.value : null;
}

describe('a block', () => {
  it('prints as it stands', () => {
    const property = fc.property(randomLine, (line) => {
      for (const dialect of Object.values(dialects)) expect(printBlock(parseBlock(line, dialect))).toBe(line);
    });
    fc.assert(property, { numRuns: 500 });
  });

  it('prints some items anew and the rest as it stands', () => {
    const block = parseBlock('/N10  g1 X5(c)  f100 ', dialects.macro);
    const written = new Map(block.items.slice(1, 3).map((item, index) => [item, ['X#1', ''][index] ?? '']));
    expect(printBlock(block, written)).toBe('/N10  g1 X#1  f100 ');
  });
});

describe('an expression', () => {
  it.each([
    ['5.', '5'],
    ['[-.5]', '-0.5'],
    ['-[5]', '-[5]'],
    ['-#5', '-#5'],
    ['[#1+2*3]', '[#1 + 2 * 3]'],
    ['[[#1+2]*3]', '[[#1 + 2] * 3]'],
    ['[1-[2-3]]', '[1 - [2 - 3]]'],
    ['[[1-2]-3]', '[1 - 2 - 3]'],
    ['[#1 EQ 0 AND #2 GT 1]', '[[#1 EQ 0] AND [#2 GT 1]]'],
    ['##2', '##2'],
    ['#[#1+1]', '#[#1 + 1]'],
    ['#<A b>', '#<ab>'],
    ['atan[#1+1]/[2]', 'ATAN[#1 + 1]/[2]'],
    ['[0.0000001]', '0.0000001'],
    ['[1000000000000000000000]', '1000000000000000000000'],
  ])('%s prints as %s', (text, expected) => {
    const value = parsedValue(text);
    expect(value && printExpression(value)).toBe(expected);
  });

  it('is read back as the same tree by both dialects', () => {
    let compared = 0;
    const property = fc.property(randomExpression, (text) => {
      for (const dialect of Object.values(dialects)) {
        const value = parsedValue(text, dialect);
        if (value === null) continue;
        compared++;
        const again = parsedValue(printExpression(value), dialect);
        expect(again && outlineExpression(again)).toBe(outlineExpression(value));
      }
    });
    fc.assert(property, { numRuns: 1500 });
    expect(compared).toBeGreaterThan(500);
  });
});

describe('a word', () => {
  it.each([
    ['X', 10, 3, 'X10.0'],
    ['Z', -0.125, 3, 'Z-0.125'],
    ['Y', -0.0001, 3, 'Y0.0'],
    ['F', 1500, 0, 'F1500'],
    ['G', 38.2, 1, 'G38.2'],
    ['T', 20, 0, 'T20'],
    ['I', 1.05, 4, 'I1.05'],
  ])('%s %d to %i places', (letter, value, decimals, expected) => {
    expect(printWord(letter, value, decimals)).toBe(expected);
  });
});
