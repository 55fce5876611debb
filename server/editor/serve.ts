import type { Connection } from 'vscode-languageserver';
import type { Files } from '../workspace/files.ts';
import { type ClientFacts, clientFacts } from './clientFacts.ts';
import { guarded, type Log } from './guard.ts';
import { initializeResult } from './initializeResult.ts';
import { openSession } from './session.ts';

/** What the server needs of the world, handed in by the rim. */
export interface Rim {
  readonly version: string;
  files(client: ClientFacts, connection: Connection): Files;
  /** Milliseconds, from anywhere. */
  now(): number;
  /** Settles when what has come in meanwhile was read. */
  pause(): Promise<void>;
}

/** Answers a client on this connection; the caller makes it listen. */
export function serve(connection: Connection, rim: Rim): void {
  const log: Log = (message) => connection.console.error(message);
  connection.onInitialize(
    guarded('initialize', log, (params) => {
      const client = clientFacts(params);
      openSession(client, connection, rim, log);
      return initializeResult(client, rim.version);
    }),
  );
}
