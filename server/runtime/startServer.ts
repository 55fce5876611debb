import { firstAnswer } from './firstAnswer.ts';
import { firstMessage, framed } from './firstMessage.ts';

/** Speaks as the arguments of the process say: `--node-ipc`, `--stdio`, `--socket=PORT`, `--pipe=NAME`. */
export async function startAsAsked(version: string): Promise<void> {
  const asked = process.argv.map((argument) => /^--(node-ipc|stdio|socket|pipe)\b/.exec(argument)?.[1]);
  const first = asked.find((each) => each !== undefined) ?? 'stdio';
  if (first === 'stdio') return startOnStdio(version);
  if (first === 'node-ipc') return startOnIpc(version);
  const { serveAsArgued } = await import('./nodeLanguageServer.ts');
  serveAsArgued(version);
}

/** Speaks on standard input and output; the process ends when the client has closed its side. */
export async function startOnStdio(version: string): Promise<void> {
  const endedEarly = () => process.exit(1);
  process.stdin.once('end', endedEarly);
  const answer = firstAnswer(await firstMessage(process.stdin), version);
  if (answer !== null) process.stdout.write(framed(answer));
  const { serveOnStdio } = await import('./nodeLanguageServer.ts');
  process.stdin.off('end', endedEarly);
  serveOnStdio(version, answer?.id ?? null);
}

/** Speaks over the channel of the process that started this one. */
async function startOnIpc(version: string): Promise<void> {
  const received: unknown[] = [];
  let arrived = () => {};
  const first = new Promise<void>((settle) => {
    arrived = settle;
  });
  const keep = (message: unknown) => {
    received.push(message);
    arrived();
  };
  process.on('message', keep);
  await first;
  const answer = firstAnswer(received[0], version);
  if (answer !== null) process.send?.(answer);
  const { serveOnIpc } = await import('./nodeLanguageServer.ts');
  serveOnIpc(version, answer?.id ?? null);
  process.off('message', keep);
  for (const message of received) process.emit('message', message, undefined);
}
