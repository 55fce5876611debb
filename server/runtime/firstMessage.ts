import { Buffer } from 'node:buffer';
import type { Readable } from 'node:stream';

const mostHeader = 4096;
const mostContent = 2 ** 20;

/**
 * The first message on a stream, in the base protocol's framing; null: none that is worth a reader of its own. The
 * stream is left paused, with every byte in it again. Never settles where the stream ends before.
 */
export function firstMessage(input: Readable): Promise<unknown> {
  return new Promise((settle) => {
    let received = Buffer.alloc(0);
    const take = (data: Buffer) => {
      received = Buffer.concat([received, data]);
      const message = messageIn(received);
      if (message === undefined) return;
      input.off('data', take);
      input.pause();
      input.unshift(received);
      settle(message);
    };
    input.on('data', take);
  });
}

/** undefined: not all of it is there yet. */
export function messageIn(received: Buffer): unknown {
  const head = received.indexOf('\r\n\r\n');
  if (head < 0) return received.length > mostHeader ? null : undefined;
  const length = Number(/^content-length: *(\d+)/im.exec(received.toString('latin1', 0, head))?.[1]);
  if (!(length <= mostContent)) return null;
  const start = head + 4;
  if (received.length < start + length) return undefined;
  try {
    return JSON.parse(received.toString('utf8', start, start + length));
  } catch {
    return null;
  }
}

/** A message as it is sent. */
export function framed(message: object): string {
  const content = JSON.stringify(message);
  return `Content-Length: ${Buffer.byteLength(content)}\r\n\r\n${content}`;
}
