import { Buffer, isAscii, isUtf8 } from 'node:buffer';

export type Encoding = 'utf-8' | 'latin-1' | 'utf-16le' | 'utf-16be';

/** How far a NUL is looked for: in a large file, searching all of it takes as long as reading it. */
const glance = 8000;

/** A program's text without its byte order mark, and what it takes to write it back as it was. */
export interface ProgramText {
  readonly text: string;
  readonly encoding: Encoding;
  readonly mark: boolean;
}

/**
 * UTF-8 where the bytes are, else Latin-1, which every byte is; UTF-16 by its mark. null: a NUL near the start says that it
 * is no text.
 */
export function decodeProgram(bytes: Uint8Array): ProgramText | null {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (buffer[0] === 0xff && buffer[1] === 0xfe)
    return { text: buffer.toString('utf16le', 2), encoding: 'utf-16le', mark: true };
  if (buffer[0] === 0xfe && buffer[1] === 0xff)
    return { text: new TextDecoder('utf-16be').decode(bytes), encoding: 'utf-16be', mark: true };
  if (buffer.subarray(0, glance).includes(0)) return null;
  // ASCII is read as Latin-1: the same text, several times as fast.
  if (isAscii(bytes)) return { text: buffer.toString('latin1'), encoding: 'utf-8', mark: false };
  if (!isUtf8(bytes)) return { text: buffer.toString('latin1'), encoding: 'latin-1', mark: false };
  const mark = buffer[0] === 0xef && buffer[1] === 0xbb && buffer[2] === 0xbf;
  return { text: buffer.toString('utf8', mark ? 3 : 0), encoding: 'utf-8', mark };
}

export function encodeProgram({ text, encoding, mark }: ProgramText): Uint8Array {
  const whole = mark ? `\ufeff${text}` : text;
  if (encoding === 'utf-8') return Buffer.from(whole, 'utf8');
  if (encoding === 'latin-1') return Buffer.from(whole, 'latin1');
  const units = Buffer.from(whole, 'utf16le');
  return encoding === 'utf-16le' ? units : units.swap16();
}
