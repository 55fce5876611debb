import { fork, spawn } from 'node:child_process';
import { afterAll, expect, test } from 'vitest';
import { framed, messageIn } from '../../server/runtime/firstMessage.ts';
import { builtServer, removeBuiltServer } from './serverProcess.ts';

afterAll(removeBuiltServer);

const initialize = (id: number) => ({
  jsonrpc: '2.0',
  id,
  method: 'initialize',
  params: { processId: process.pid, rootUri: null, capabilities: {} },
});
const shutdown = { jsonrpc: '2.0', id: 8, method: 'shutdown' };
const exit = { jsonrpc: '2.0', method: 'exit' };

interface Said {
  readonly messages: readonly Record<string, unknown>[];
  readonly status: number | null;
}

/**
 * What the server says on standard output to these pieces, each written a moment after the one before. The client leaves
 * when it has the answer to `last`; null: at once.
 */
async function said(pieces: readonly string[], last: number | null): Promise<Said> {
  const child = spawn(process.execPath, [await builtServer(), '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let messages: Record<string, unknown>[] = [];
  let received = Buffer.alloc(0);
  const hasLast = () => last === null || messages.some(({ id }) => id === last);
  child.stdout.on('data', (data: Buffer) => {
    received = Buffer.concat([received, data]);
    messages = allMessages(received);
    if (hasLast()) child.stdin.end();
  });
  const ended = new Promise<number | null>((settle) => child.once('close', settle));
  for (const piece of pieces) {
    child.stdin.write(piece);
    await new Promise((later) => setTimeout(later, 20));
  }
  if (last === null) child.stdin.end();
  return { status: await ended, messages };
}

function allMessages(received: Buffer): Record<string, unknown>[] {
  const messages: Record<string, unknown>[] = [];
  for (let rest = received; rest.length > 0; ) {
    const message = messageIn(rest) as Record<string, unknown> | undefined;
    if (message === undefined) break;
    messages.push(message);
    rest = rest.subarray(Buffer.byteLength(framed(message)));
  }
  return messages;
}

const withoutLogs = ({ messages }: Said) => messages.filter((message) => message.id !== undefined);

test('initialize is answered once, and as the library answers it where it is not the first message', async () => {
  const both = framed(initialize(7)) + framed(shutdown);
  const fast = await said([both], 8);
  const traced = framed({ jsonrpc: '2.0', method: '$/setTrace', params: { value: 'off' } });
  const asTheLibrary = await said([traced, both], 8);
  expect(withoutLogs(fast).map(({ id }) => id)).toEqual([7, 8]);
  expect(withoutLogs(fast)).toEqual(withoutLogs(asTheLibrary));
  expect([fast.status, asTheLibrary.status]).toEqual([0, 0]);
});

test('a first message may come in pieces, cut inside of its head and its content', async () => {
  const text = framed(initialize(7));
  const { messages, status } = await said([text.slice(0, 9), text.slice(9, 60), text.slice(60)], 7);
  expect(messages.map(({ id }) => id)).toEqual([7]);
  expect(status).toBe(1);
});

test('an initialize with no parameters gets an answer of its own, and the next one is heard', async () => {
  const bare = framed({ jsonrpc: '2.0', id: 7, method: 'initialize' });
  const { messages, status } = await said([bare + framed(shutdown)], 8);
  expect(messages.find(({ id }) => id === 7)?.error).toBeDefined();
  expect(status).toBe(0);
});

test.each([
  ['nothing', ''],
  ['half a message', framed(initialize(7)).slice(0, 80)],
])('a client that leaves after %s ends the server', async (_, text) => {
  expect(await said([text], null)).toEqual({ messages: [], status: 1 });
});

test('over the channel of its parent each message is answered, those sent before the answer too', async () => {
  const child = fork(await builtServer(), ['--node-ipc'], { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] });
  const ids: unknown[] = [];
  child.on('message', ({ id }: { id?: unknown }) => {
    if (id !== undefined) ids.push(id);
    if (id === 8) child.send(exit);
  });
  const ended = new Promise((settle) => child.once('exit', settle));
  for (const message of [initialize(7), shutdown]) child.send(message);
  expect(await ended).toBe(0);
  expect(ids).toEqual([7, 8]);
});
