import { Buffer } from 'node:buffer';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readProgram } from '../../server/commands/readProgram.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { fakeTerminal } from './fakeTerminal.ts';

const path = { shown: 'a.ngc', absolute: '/shop/a.ngc', walked: false };

async function read(bytes: Uint8Array): Promise<SourceText> {
  const result = await readProgram(path, fakeTerminal({ files: { '/shop/a.ngc': bytes } }).terminal);
  if ('problem' in result) throw new Error(result.problem);
  return result.text;
}

function lines(text: SourceText): string[] {
  return Array.from({ length: text.lineCount }, (_, line) => text.line(line) + text.lineEnding(line));
}

test('a program that comes in pieces is the same as one that comes whole', async () => {
  const piece = fc.oneof(
    fc.constantFrom('\n', '\r\n', '\r', 'G1 X5', 'é', ''),
    fc.stringMatching(/^[ -~]{0,90}$/),
  );
  await fc.assert(
    fc.asyncProperty(fc.array(piece, { maxLength: 40 }), async (parts) => {
      const whole = parts.join('');
      const text = await read(Buffer.from(whole));
      expect(text.toString()).toBe(whole);
      expect(lines(text)).toEqual(lines(SourceText.from(whole)));
      expect(text.positionAt(whole.length)).toEqual(SourceText.from(whole).positionAt(whole.length));
    }),
  );
});

test('an edit across two pieces', async () => {
  const whole = 'G1 X5 (a comment of some length)\n'.repeat(20);
  const change = { line: 3, start: 2, endLine: 9, end: 4, text: 'Y7\nZ' };
  expect((await read(Buffer.from(whole))).edit(change).toString()).toBe(
    SourceText.from(whole).edit(change).toString(),
  );
});
