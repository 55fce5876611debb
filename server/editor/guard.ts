import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';

/** Where a fault of ours is written down. */
export type Log = (message: string) => void;

/**
 * Keeps one request's fault to itself: it is logged and answered as an error, and the server goes on. A request that was
 * given up is no fault.
 */
export function guarded<P, R>(
  name: string,
  log: Log,
  handle: (params: P, token: CancellationToken) => Promise<R> | R,
): (params: P, token: CancellationToken) => Promise<R> {
  return async (params, token) => {
    try {
      return await handle(params, token);
    } catch (error) {
      if (error instanceof ResponseError) throw error;
      log(`${name} failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
      const message = error instanceof Error ? error.message : String(error);
      throw new ResponseError(
        LSPErrorCodes.RequestFailed,
        `Probewright could not answer ${name}: ${message}`,
      );
    }
  };
}

/** The same for what nobody waits for. */
export function guardedNotice<P>(
  name: string,
  log: Log,
  handle: (params: P) => Promise<void> | void,
): (params: P) => Promise<void> {
  return async (params) => {
    try {
      await handle(params);
    } catch (error) {
      log(`${name} failed: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    }
  };
}

export function stopIfCancelled(token: CancellationToken): void {
  if (token.isCancellationRequested) {
    throw new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was given up by the client.');
  }
}
