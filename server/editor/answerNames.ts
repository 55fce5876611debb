import {
  type Connection,
  LSPErrorCodes,
  ResponseError,
  type TextDocumentPositionParams,
} from 'vscode-languageserver';
import type { Program } from '../workspace/program.ts';
import { definition } from './definition.ts';
import { documentSymbols, flatSymbols } from './documentSymbols.ts';
import { highlights } from './highlights.ts';
import { onProgram } from './onProgram.ts';
import { references } from './references.ts';
import { prepareRename, rename } from './rename.ts';
import type { Refusal } from './renameTarget.ts';
import type { Session } from './session.ts';
import { openPrograms, type Surroundings, surroundings } from './surroundings.ts';

/** The features about names: what they mean and where they stand, in open programs and the files that those call. */
export function answerNames(connection: Connection, session: Session): void {
  const { client, documents, files } = session;
  const around = <P extends TextDocumentPositionParams, R>(
    name: string,
    none: R,
    answer: (around: Surroundings, params: P) => R | Promise<R>,
  ) =>
    onProgram(session, name, none, async (program: Program, params: P) =>
      answer(surroundings(program, await openPrograms(session)), params),
    );

  connection.onDefinition(around('definition', null, (place, { position }) => definition(place, position)));
  connection.onReferences(
    around('references', null, (place, { position, context }) =>
      references(place, position, context.includeDeclaration),
    ),
  );
  connection.onDocumentHighlight(
    around('documentHighlight', null, ({ program }, { position }) => highlights(program, position)),
  );
  connection.onPrepareRename(
    around('prepareRename', null, (place, { position }) => allowed(prepareRename(place, position))),
  );
  const world = {
    client: client.names,
    version: (uri: string) => documents.find(uri)?.version ?? null,
    fileExists: async (uri: string) => documents.find(uri) !== null || (await files.read(uri)) !== null,
  };
  connection.onRenameRequest(
    around('rename', null, async (place, { position, newName }) =>
      allowed(await rename(place, position, newName, world)),
    ),
  );
  connection.onDocumentSymbol(
    onProgram(session, 'documentSymbol', null, (program) => {
      const symbols = documentSymbols(program);
      return client.nestedSymbols ? symbols : flatSymbols(symbols, program.uri);
    }),
  );
}

/** What is refused is answered as an error: the client shows its words. */
function allowed<T extends object>(answer: T | Refusal): T {
  if ('refused' in answer) throw new ResponseError(LSPErrorCodes.RequestFailed, answer.refused);
  return answer;
}
