import { Buffer, isAscii, isUtf8 } from 'node:buffer';

export type Encoding = 'utf-8' | 'latin-1' | 'utf-16le' | 'utf-16be';

/** How a program's bytes become text, and what it takes to write them back as they were. */
export interface Coding {
  readonly encoding: Encoding;
  /** It begins with a byte order mark, which is no part of the text. */
  readonly mark: boolean;
}

/** How far a NUL is looked for: in a large file, searching all of it takes as long as reading it. */
const glance = 8000;

/** A NUL near the start says that these bytes are no text, unless they are UTF-16. */
export function isBinary(bytes: Uint8Array): boolean {
  return bytes.subarray(0, glance).includes(0);
}

/** UTF-8 where the bytes are, else Latin-1, which every byte is; UTF-16 by its mark. null: no text. */
export function decodeProgram(bytes: Uint8Array): (Coding & { readonly text: string }) | null {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (buffer[0] === 0xff && buffer[1] === 0xfe)
    return { text: buffer.toString('utf16le', 2), encoding: 'utf-16le', mark: true };
  if (buffer[0] === 0xfe && buffer[1] === 0xff)
    return { text: new TextDecoder('utf-16be').decode(bytes), encoding: 'utf-16be', mark: true };
  if (isBinary(bytes)) return null;
  if (!isUtf8(bytes)) return { text: buffer.toString('latin1'), encoding: 'latin-1', mark: false };
  const mark = buffer[0] === 0xef && buffer[1] === 0xbb && buffer[2] === 0xbf;
  return { text: buffer.toString('utf8', mark ? 3 : 0), encoding: 'utf-8', mark };
}

/** Text of these bytes in an encoding that ASCII is part of; null: not in this one. */
export function decodeAs(encoding: 'utf-8' | 'latin-1', bytes: Uint8Array): string | null {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  // As Latin-1 where it can be, which is several times as fast.
  if (encoding === 'latin-1' || isAscii(buffer)) return buffer.toString('latin1');
  return isUtf8(buffer) ? buffer.toString('utf8') : null;
}

export function encodeProgram(text: string, { encoding, mark }: Coding): Uint8Array {
  const whole = mark ? `\ufeff${text}` : text;
  if (encoding === 'utf-8') return Buffer.from(whole, 'utf8');
  if (encoding === 'latin-1') return Buffer.from(whole, 'latin1');
  const units = Buffer.from(whole, 'utf16le');
  return encoding === 'utf-16le' ? units : units.swap16();
}
