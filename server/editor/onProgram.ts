import type { CancellationToken } from 'vscode-languageserver';
import type { Program } from '../workspace/program.ts';
import { guarded, stopIfCancelled } from './guard.ts';
import type { Session } from './session.ts';

export interface AboutProgram {
  readonly textDocument: { readonly uri: string };
}

/** A handler of requests about one program, as it stands when the request comes in; `none` where there is no such program. */
export function onProgram<P extends AboutProgram, R>(
  { log, program }: Session,
  name: string,
  none: R,
  answer: (program: Program, params: P) => R | Promise<R>,
): (params: P, token: CancellationToken) => Promise<R> {
  return guarded(name, log, async (params: P, token: CancellationToken) => {
    const open = await program(params.textDocument.uri);
    stopIfCancelled(token);
    return open === null || open.notChecked !== null ? none : answer(open, params);
  });
}
