import { Console } from 'node:console';
import {
  type Connection,
  createConnection,
  IPCMessageReader,
  IPCMessageWriter,
  Message,
  type MessageWriter,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { type Rim, serve } from '../editor/serve.ts';
import { clientFiles } from './clientFiles.ts';
import type { RequestId } from './firstAnswer.ts';
import { nodeFiles } from './nodeFiles.ts';

/** Speaks on standard input and output. `answered` is the `initialize` that the client has its answer to; null: none. */
export function serveOnStdio(version: string, answered: RequestId | null): void {
  const { stdin, stdout, stderr } = process;
  // What a package may print would break the protocol.
  globalThis.console = new Console(stderr, stderr);
  const writer = leavingOut(new StreamMessageWriter(stdout), answered);
  const connection = createConnection(ProposedFeatures.all, new StreamMessageReader(stdin), writer);
  let isShutDown = false;
  connection.onShutdown(() => {
    isShutDown = true;
  });
  const leave = () => process.exit(isShutDown ? 0 : 1);
  stdin.once('end', leave).once('close', leave);
  start(connection, version);
  stdin.resume();
}

/** The same over the channel of the process that started this one. */
export function serveOnIpc(version: string, answered: RequestId | null): void {
  const writer = leavingOut(new IPCMessageWriter(process), answered);
  start(createConnection(ProposedFeatures.all, new IPCMessageReader(process), writer), version);
}

/** Speaks as the library reads the arguments of the process: `--socket=PORT`, `--pipe=NAME`. */
export function serveAsArgued(version: string): void {
  start(createConnection(ProposedFeatures.all), version);
}

/** The library is told of a request that has its answer too; its own answer to that goes nowhere. */
function leavingOut(writer: MessageWriter, answered: RequestId | null): MessageWriter {
  let left = answered;
  const write = writer.write.bind(writer);
  writer.write = (message) => {
    if (left === null || !Message.isResponse(message) || message.id !== left) return write(message);
    left = null;
    return Promise.resolve();
  };
  return writer;
}

function start(connection: Connection, version: string): void {
  // A fault that got past every guard must not end the server in silence: it is told, and the next request is answered.
  const tell = (error: unknown) =>
    connection.console.error(`Unexpected: ${error instanceof Error ? error.stack : String(error)}`);
  process.on('uncaughtException', tell);
  process.on('unhandledRejection', tell);
  serve(connection, rim(version));
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
