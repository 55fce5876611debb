import type { InitializeParams, InitializeResult } from 'vscode-languageserver';
import { clientFacts } from '../editor/clientFacts.ts';
import { initializeResult } from '../editor/initializeResult.ts';

export type RequestId = number | string;

export interface FirstAnswer {
  readonly jsonrpc: '2.0';
  readonly id: RequestId;
  readonly result: InitializeResult;
}

/**
 * The answer to a client's first message where that is a sound `initialize`, made before the library that speaks with
 * the client is loaded; null: anything else, and for the library to answer.
 */
export function firstAnswer(message: unknown, version: string): FirstAnswer | null {
  if (typeof message !== 'object' || message === null) return null;
  const { id, method, params } = message as { id?: unknown; method?: unknown; params?: unknown };
  if (method !== 'initialize' || typeof params !== 'object' || params === null) return null;
  if (typeof id !== 'number' && typeof id !== 'string') return null;
  try {
    const client = clientFacts(params as InitializeParams);
    return { jsonrpc: '2.0', id, result: initializeResult(client, version) };
  } catch {
    return null; // the library meets the same fault, and words it
  }
}
