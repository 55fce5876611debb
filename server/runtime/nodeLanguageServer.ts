import { type Connection, createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { HeldMessages } from '../editor/heldMessages.ts';
import { type Rim, serve } from '../editor/serve.ts';
import { clientFiles } from './clientFiles.ts';
import { nodeFiles } from './nodeFiles.ts';

/** Speaks as the arguments of the process say: `--node-ipc`, `--stdio`, `--socket=PORT`, `--pipe=NAME`. */
export function startAsAsked(version: string): void {
  const asked = process.argv.some((argument) => /^--(node-ipc|stdio|socket|pipe)\b/.test(argument));
  if (!asked) return void startOnStdio(version);
  const messages = new HeldMessages();
  start(createConnection(ProposedFeatures.all, { messageStrategy: messages }), messages, version);
}

/** Speaks on standard input and output; settles when the client has closed its side. */
export function startOnStdio(version: string): Promise<void> {
  const messages = new HeldMessages();
  const options = { messageStrategy: messages };
  start(createConnection(ProposedFeatures.all, process.stdin, process.stdout, options), messages, version);
  return new Promise((settle) => process.stdin.once('close', settle));
}

function start(connection: Connection, messages: HeldMessages, version: string): void {
  // A fault that got past every guard must not end the server in silence: it is told, and the next request is answered.
  const tell = (error: unknown) =>
    connection.console.error(`Unexpected: ${error instanceof Error ? error.stack : String(error)}`);
  process.on('uncaughtException', tell);
  process.on('unhandledRejection', tell);
  serve(connection, rim(version), messages);
  connection.listen();
}

function rim(version: string): Rim {
  return {
    version,
    files: (client, connection) => (client.offersFiles ? clientFiles(connection) : nodeFiles),
    now: () => performance.now(),
    pause: () => new Promise((done) => setImmediate(done)),
  };
}
