import type { InitializeResult } from 'vscode-languageserver';
import { capabilities } from './capabilities.ts';
import type { ClientFacts } from './clientFacts.ts';

/**
 * The answer to `initialize`. Who starts the server waits for it, so nothing that it needs may import the library that
 * speaks with the client, or anything that reads programs.
 */
export function initializeResult(client: ClientFacts, version: string): InitializeResult {
  return { capabilities: capabilities(client), serverInfo: { name: 'Probewright', version } };
}
