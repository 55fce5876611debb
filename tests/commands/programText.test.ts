import { Buffer } from 'node:buffer';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeProgram, encodeProgram } from '../../server/commands/programText.ts';

describe('decodeProgram', () => {
  test.each([
    ['ASCII', Buffer.from('G1 X5\r\n'), 'G1 X5\r\n', 'utf-8'],
    ['UTF-8', Buffer.from('(Ø 5)\n'), '(Ø 5)\n', 'utf-8'],
    ['UTF-8 with a mark', Buffer.from('\ufeffG1 (Ø)'), 'G1 (Ø)', 'utf-8'],
    ['Latin-1', Buffer.from('(Ø 5)', 'latin1'), '(Ø 5)', 'latin-1'],
    ['UTF-16, little end first', Buffer.from('\ufeffG1 (Ø)', 'utf16le'), 'G1 (Ø)', 'utf-16le'],
    ['UTF-16, big end first', Buffer.from('\ufeffG1 (Ø)', 'utf16le').swap16(), 'G1 (Ø)', 'utf-16be'],
    ['nothing', Buffer.alloc(0), '', 'utf-8'],
  ] as const)('%s', (_, bytes, text, encoding) => {
    expect(decodeProgram(bytes)).toMatchObject({ text, encoding });
  });

  test('a binary file is no text', () => {
    expect(decodeProgram(Uint8Array.of(0x7f, 0x45, 0x4c, 0x46, 2, 1, 1, 0))).toBeNull();
  });

  test('a part of a larger buffer is read as that part', () => {
    expect(decodeProgram(Buffer.from('xxG1xx').subarray(2, 4))?.text).toBe('G1');
  });
});

test('whatever is read is written back byte for byte', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.uint8Array({ min: 1 }),
        fc.string({ unit: 'grapheme' }).map((text) => Buffer.from(text)),
      ),
      (bytes) => {
        const decoded = decodeProgram(bytes);
        if (decoded && !decoded.encoding.startsWith('utf-16'))
          expect(Buffer.from(encodeProgram(decoded.text, decoded)).equals(Buffer.from(bytes))).toBe(true);
      },
    ),
  );
  for (const encoding of ['utf-16le', 'utf-16be'] as const) {
    const program = { text: 'G1 (Ø \u{1f600})', encoding, mark: true };
    expect(decodeProgram(encodeProgram(program.text, program))).toEqual(program);
  }
});
