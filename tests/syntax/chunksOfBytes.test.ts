import { Buffer } from 'node:buffer';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { StoredBytes } from '../../server/syntax/chunksOfBytes.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

function stored(text: string, held = { bytes: Buffer.from(text) }): StoredBytes {
  return {
    read(into, from) {
      const part = held.bytes.subarray(from, from + into.length);
      into.set(part);
      return part.length;
    },
    decode: (some) => Buffer.from(some).toString(),
  };
}

const about = (text: SourceText) =>
  Array.from({ length: text.lineCount }, (_, line) => {
    const at = text.chunkOf(line);
    const kind = text.chunks[at]?.kind(line - text.firstLine(at));
    return [text.line(line), text.lineEnding(line), kind, text.lineStart(line)];
  });

const line = fc.oneof(
  fc.constantFrom('\n', '\r\n', '\r', 'G1 X5\n', 'N5 G1 X-1.5 Y2\r\n', 'é', '(∅ é)\n', '', '\ufeff'),
  fc.stringMatching(/^[ -~]{0,90}$/),
  fc.constantFrom('X1\n', 'X1\r', 'X1\r\n').map((repeated) => repeated.repeat(400)),
);

test('a text that stays where it is has the lines of one that is in memory', () => {
  const property = fc.property(fc.array(line, { maxLength: 40 }), (parts) => {
    const whole = parts.join('');
    const text = SourceText.fromBytes(stored(whole));
    expect(text?.toString()).toBe(whole);
    if (text) expect(about(text)).toEqual(about(SourceText.from(whole)));
  });
  fc.assert(property, { numRuns: 300 });
});

test.each([
  ['CRLF across pieces', 'N10 G1 X1234.5\r\n'.repeat(140_000)],
  ['CR across pieces', 'N10 G1 X1234.5\r'.repeat(140_000)],
  ['a line longer than a piece', `G1 X1\n(${'a'.repeat(3_000_000)})\nM2`],
  ['a piece filled to the end', 'X1234567.12345\r\n'.repeat(65_536)],
])('a long text: %s', (_, whole) => {
  const text = SourceText.fromBytes(stored(whole));
  const inMemory = SourceText.from(whole);
  expect(text?.lineCount).toBe(inMemory.lineCount);
  expect(text?.toString() === whole).toBe(true);
  for (const at of [0, 1, 65_535, 65_536, 65_537, 139_999])
    expect(text?.line(at) === inMemory.line(at)).toBe(true);
});

test('an edit of a text that stays where it is', () => {
  const whole = 'G1 X5\n'.repeat(2000);
  const change = { line: 300, start: 2, endLine: 900, end: 4, text: 'Y7\nZ' };
  expect(SourceText.fromBytes(stored(whole))?.edit(change).toString()).toBe(
    SourceText.from(whole).edit(change).toString(),
  );
});

test('stored bytes that became shorter', () => {
  const held = { bytes: Buffer.from('X1\n'.repeat(1000)) };
  const text = SourceText.fromBytes(stored('', held));
  held.bytes = Buffer.from('X1\n');
  expect(() => text?.line(999)).toThrow('its text has changed');
});
