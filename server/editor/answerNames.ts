import {
  type Connection,
  LSPErrorCodes,
  ResponseError,
  type TextDocumentPositionParams,
} from 'vscode-languageserver';
import type { Program } from '../workspace/program.ts';
import { knownPrograms } from '../workspace/relatedPrograms.ts';
import { incomingCalls, outgoingCalls, prepareCallHierarchy } from './callHierarchy.ts';
import { definition } from './definition.ts';
import { documentLinks } from './documentLinks.ts';
import { documentSymbols, flatSymbols } from './documentSymbols.ts';
import { fileRenameEdits } from './fileRename.ts';
import { guarded } from './guard.ts';
import { highlights } from './highlights.ts';
import { OfferedRenames } from './offeredRenames.ts';
import { onProgram } from './onProgram.ts';
import { references } from './references.ts';
import { prepareRename, rename } from './rename.ts';
import type { Refusal } from './renameTarget.ts';
import { selectionRanges } from './selectionRanges.ts';
import type { Session } from './session.ts';
import { openPrograms, type Surroundings, surroundings } from './surroundings.ts';
import { workspaceSymbols } from './workspaceSymbols.ts';

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
  const offered = new OfferedRenames(session.rim.now);
  const world = {
    client: client.names,
    version: (uri: string) => documents.find(uri)?.version ?? null,
    fileExists: async (uri: string) => documents.find(uri) !== null || (await files.read(uri)) !== null,
  };
  connection.onRenameRequest(
    around('rename', null, async (place, { position, newName }) => {
      const edit = allowed(await rename(place, position, newName, world));
      offered.offer(edit);
      return edit;
    }),
  );
  connection.onDocumentSymbol(
    onProgram(session, 'documentSymbol', null, (program) => {
      const symbols = documentSymbols(program);
      return client.nestedSymbols ? symbols : flatSymbols(symbols, program.uri);
    }),
  );
  connection.onDocumentLinks(
    onProgram(session, 'documentLink', null, (program) =>
      documentLinks(surroundings(program, []).program, client.names.linkTooltips),
    ),
  );
  connection.onSelectionRanges(
    onProgram(session, 'selectionRange', null, (program, { positions }) =>
      selectionRanges(program, positions),
    ),
  );
  connection.languages.callHierarchy.onPrepare(
    around('prepareCallHierarchy', null, ({ program }, { position }) =>
      prepareCallHierarchy(program, position),
    ),
  );
  answerOverPrograms(connection, session, offered);
}

/** What is asked of all programs that are known. */
function answerOverPrograms(connection: Connection, session: Session, offered: OfferedRenames): void {
  const { log, texts } = session;
  const known = async () => knownPrograms(await openPrograms(session));
  const { callHierarchy } = connection.languages;
  callHierarchy.onIncomingCalls(
    guarded('incomingCalls', log, async ({ item }) => incomingCalls(item, await known())),
  );
  callHierarchy.onOutgoingCalls(
    guarded('outgoingCalls', log, async ({ item }) => outgoingCalls(item, await known())),
  );
  connection.onWorkspaceSymbol(
    guarded('workspaceSymbol', log, async ({ query }) => workspaceSymbols(query, await known())),
  );
  connection.workspace.onWillRenameFiles(
    guarded('willRenameFiles', log, async ({ files }) => {
      const asked = files.filter((file) => !offered.take(file));
      for (const { oldUri } of asked) texts.forget(oldUri);
      return asked.length === 0 ? null : fileRenameEdits(asked, await known());
    }),
  );
}

/** What is refused is answered as an error: the client shows its words. */
function allowed<T extends object>(answer: T | Refusal): T {
  if ('refused' in answer) throw new ResponseError(LSPErrorCodes.RequestFailed, answer.refused);
  return answer;
}
