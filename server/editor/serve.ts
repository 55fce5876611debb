import type { Connection, InitializeResult } from 'vscode-languageserver';
import type { Files } from '../workspace/files.ts';
import { capabilities } from './capabilities.ts';
import { type ClientFacts, clientFacts } from './clientFacts.ts';
import { guarded, type Log } from './guard.ts';
import type { HeldMessages } from './heldMessages.ts';

/** What the server needs of the world, handed in by the rim. */
export interface Rim {
  readonly version: string;
  files(client: ClientFacts, connection: Connection): Files;
  /** Milliseconds, from anywhere. */
  now(): number;
  /** Settles when what has come in meanwhile was read. */
  pause(): Promise<void>;
}

/**
 * Answers a client on this connection; the caller makes it listen. Who starts the server waits for the answer to
 * `initialize`, so what answers all else is loaded behind it.
 */
export function serve(connection: Connection, rim: Rim, messages: HeldMessages): void {
  const log: Log = (message) => connection.console.error(message);
  connection.onInitialize(
    guarded('initialize', log, (params): InitializeResult => {
      const client = clientFacts(params);
      messages.holdUntil(
        rim.pause().then(async () => {
          const { openSession } = await import('./session.ts');
          openSession(client, connection, rim, log);
        }),
      );
      return {
        capabilities: capabilities(client),
        serverInfo: { name: 'Probewright', version: rim.version },
      };
    }),
  );
}
