import { type Connection, DidChangeWatchedFilesNotification } from 'vscode-languageserver';
import { fileName, profileName } from '../workspace/documentKind.ts';
import type { OpenDocument } from '../workspace/openDocument.ts';
import { guardedNotice } from './guard.ts';
import { refreshNotes } from './notesInForce.ts';
import { offerFormatting } from './offerFormatting.ts';
import { programGlobs } from './programGlobs.ts';
import type { Session } from './session.ts';

/** Keeps the open documents as the client has them, and the findings with them. */
export function followDocuments(connection: Connection, session: Session): void {
  const { documents, log } = session;
  connection.onDidOpenTextDocument(
    guardedNotice('didOpen', log, async ({ textDocument: { uri, languageId, version, text } }) => {
      await changed(documents.open(uri, languageId, version, text), connection, session);
    }),
  );
  connection.onDidChangeTextDocument(
    guardedNotice('didChange', log, async ({ textDocument: { uri, version }, contentChanges }) => {
      const document = documents.change(uri, version, contentChanges);
      if (document) await changed(document, connection, session);
      else log(`didChange of ${uri}, which is not open`);
    }),
  );
  connection.onDidCloseTextDocument(
    guardedNotice('didClose', log, async ({ textDocument: { uri } }) => {
      const document = documents.close(uri);
      if (document?.kind === 'profile') await profilesChanged(connection, session);
      else {
        session.findings.closed(uri);
        session.calledFiles.forget(uri);
        await filesChanged([uri], connection, session);
      }
    }),
  );
  connection.onDidSaveTextDocument(
    guardedNotice('didSave', log, async ({ textDocument: { uri } }) => {
      if (fileName(uri) === profileName) await profilesChanged(connection, session);
    }),
  );
  followFiles(connection, session);
}

async function changed(document: OpenDocument, connection: Connection, session: Session): Promise<void> {
  if (document.kind === 'profile') {
    session.findings.showProfile(session.profiles.read(document.uri, document.text.toString()));
    await profilesChanged(connection, session);
    return;
  }
  if (document.kind === 'program' || document.kind === 'setup') session.findings.changed(document.uri);
  // A client that asks knows that files depend on each other, and asks again by itself.
  callersChanged([document.uri], session);
}

function followFiles(connection: Connection, session: Session): void {
  connection.onDidChangeWatchedFiles(
    guardedNotice('didChangeWatchedFiles', session.log, async ({ changes }) => {
      if (changes.some(({ uri }) => fileName(uri) === profileName))
        await profilesChanged(connection, session);
      await filesChanged(
        changes.map(({ uri }) => uri),
        connection,
        session,
      );
    }),
  );
  connection.workspace.onDidRenameFiles(
    guardedNotice('didRenameFiles', session.log, async ({ files }) => {
      const uris = files.flatMap(({ oldUri, newUri }) => [oldUri, newUri]);
      await filesChanged(uris, connection, session);
    }),
  );
  connection.onInitialized(
    guardedNotice('initialized', session.log, async () => {
      await offerFormatting(connection, session.client.text);
      if (!session.client.watchesFiles) return;
      await connection.client.register(DidChangeWatchedFilesNotification.type, {
        watchers: [`**/${profileName}`, ...programGlobs].map((globPattern) => ({ globPattern })),
      });
    }),
  );
}

/** What every program rests on may be another now: nothing that was shown before stays unchecked. */
async function profilesChanged(connection: Connection, session: Session): Promise<void> {
  session.profiles.forget();
  await session.findings.showProfilesAgain();
  for (const { uri, kind } of session.documents.all()) if (kind === 'program') session.findings.changed(uri);
  await refreshFindings(connection, session);
  await refreshNotes(connection, session.client.text);
}

/** Files on the disk are others now, or are looked at there again: programs that call them follow. */
async function filesChanged(
  uris: readonly string[],
  connection: Connection,
  session: Session,
): Promise<void> {
  for (const uri of uris) session.texts.forget(uri);
  if (callersChanged(uris, session)) await refreshFindings(connection, session);
}

function callersChanged(uris: readonly string[], { calledFiles, findings }: Session): boolean {
  const callers = new Set(uris.flatMap((uri) => calledFiles.callersOf(uri)));
  for (const caller of callers) findings.changed(caller);
  return callers.size > 0;
}

async function refreshFindings(connection: Connection, { client }: Session): Promise<void> {
  if (client.pullsFindings && client.refreshesFindings) await connection.languages.diagnostics.refresh();
}
