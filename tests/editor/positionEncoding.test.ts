import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chosenEncoding, columnIn, offsetOf } from '../../server/editor/positionEncoding.ts';

// UTF-8 widths: RFC 3629, section 3. "é" U+E9 two bytes, "€" U+20AC three, "😀" U+1F600 four.
test.each([
  ['(é) X1', 4, 5, 4],
  ['(€) X1', 4, 6, 4],
  ['(😀) X1', 5, 7, 4],
  ['\t(😀😀) X1', 8, 12, 6],
  ['\ufeff(é) X1', 5, 8, 5],
] as const)('%j: the UTF-16 column %i is %i in UTF-8 and %i in UTF-32', (line, utf16, utf8, utf32) => {
  expect(columnIn(line, utf16, 'utf-8')).toBe(utf8);
  expect(columnIn(line, utf16, 'utf-32')).toBe(utf32);
  expect(offsetOf(line, utf8, 'utf-8')).toBe(utf16);
  expect(offsetOf(line, utf32, 'utf-32')).toBe(utf16);
});

test('columns agree with an encoder of the platform, there and back', () => {
  const line = fc.string({ unit: 'grapheme', maxLength: 30 });
  fc.assert(
    fc.property(line, fc.nat(40), (text, at) => {
      const characters = [...text];
      const before = characters.slice(0, Math.min(at, characters.length)).join('');
      expect(columnIn(text, before.length, 'utf-8')).toBe(new TextEncoder().encode(before).length);
      expect(columnIn(text, before.length, 'utf-32')).toBe([...before].length);
      for (const encoding of ['utf-8', 'utf-32'] as const)
        expect(offsetOf(text, columnIn(text, before.length, encoding), encoding)).toBe(before.length);
    }),
    { numRuns: 300 },
  );
});

test('a column inside a character is its start, one behind the line stays behind it', () => {
  expect(offsetOf('(😀)', 3, 'utf-8')).toBe(1);
  expect(offsetOf('é', 9, 'utf-8')).toBe(8);
  expect(columnIn('é', 8, 'utf-8')).toBe(9);
});

test('the first wish that we know is taken', () => {
  expect(chosenEncoding(['utf-7', 'utf-8', 'utf-16'])).toBe('utf-8');
  expect(chosenEncoding(['utf-16', 'utf-8'])).toBe('utf-16');
  expect(chosenEncoding(undefined)).toBe('utf-16');
  expect(chosenEncoding([])).toBe('utf-16');
});
