import { code } from './charCodes.ts';
import { imageOfMark } from './lineClass.ts';

const encoder = new TextEncoder();
let memory = new Uint8Array(1 << 18);

/**
 * A text for `LineScanner`, with an LF behind it: one byte for each UTF-16 unit, all that is not ASCII as 0xff, but a
 * byte-order mark as 0xfe. The memory is used again by the next call.
 */
export function textBytes(text: string): Uint8Array {
  const { length } = text;
  if (memory.length <= length) memory = new Uint8Array(length * 2 + 1);
  const { written, read } = encoder.encodeInto(text, memory.subarray(0, length));
  if (written !== length || read !== length) writeUnits(text);
  memory[length] = code.lineFeed;
  return memory;
}

function writeUnits(text: string): void {
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at);
    memory[at] = unit < 0x80 ? unit : unit === code.byteOrderMark ? imageOfMark : 0xff;
  }
}
