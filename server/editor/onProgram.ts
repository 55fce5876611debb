import type { CancellationToken } from 'vscode-languageserver';
import { foreignLanguage } from '../checks/foreignLanguage.ts';
import type { Program } from '../workspace/program.ts';
import { guarded, stopIfCancelled } from './guard.ts';
import type { Session } from './session.ts';

export interface AboutProgram {
  readonly textDocument: { readonly uri: string };
}

/**
 * A handler of requests about one program, as it stands when the request comes in; `none` where there is no such program,
 * and where it is in another language: its one finding says so, and what can be done about that is still answered.
 */
export function onProgram<P extends AboutProgram, R>(
  { log, program }: Session,
  name: string,
  none: R,
  answer: (program: Program, params: P) => R | Promise<R>,
): (params: P, token: CancellationToken) => Promise<R> {
  return guarded(name, log, async (params: P, token: CancellationToken) => {
    const open = await program(params.textDocument.uri);
    stopIfCancelled(token);
    if (open === null || open.notChecked !== null) return none;
    const leftAlone = name !== 'codeAction' && foreignLanguage(open.source, open.profile.profile) !== null;
    return leftAlone ? none : answer(open, params);
  });
}
