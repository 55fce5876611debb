import { type Connection, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import { SourceText } from '../syntax/sourceText.ts';
import { CalledFileFinder } from '../workspace/calledFiles.ts';
import type { Files } from '../workspace/files.ts';
import { OpenDocuments } from '../workspace/openDocuments.ts';
import { Profiles } from '../workspace/profiles.ts';
import type { Program } from '../workspace/program.ts';
import { ProgramTexts } from '../workspace/programTexts.ts';
import { answerFeatures } from './answerFeatures.ts';
import { answerOwnRequests } from './answerOwnRequests.ts';
import type { ClientFacts } from './clientFacts.ts';
import { countingInUtf16 } from './countingInUtf16.ts';
import { FindingsFlow } from './findingsFlow.ts';
import { followDocuments } from './followDocuments.ts';
import type { Log } from './guard.ts';
import { inPieces } from './inPieces.ts';
import type { Rim } from './serve.ts';

/** What one client and this server know of each other, from `initialize` on. */
export interface Session {
  readonly rim: Rim;
  /** Handlers on it count in UTF-16, whatever the client counts in. */
  readonly connection: Connection;
  readonly client: ClientFacts;
  readonly documents: OpenDocuments;
  readonly profiles: Profiles;
  readonly files: Files;
  readonly texts: ProgramTexts;
  readonly calledFiles: CalledFileFinder;
  readonly findings: FindingsFlow;
  readonly log: Log;
  /**
   * An open program as it stands now, analysed; null: not open, or no program. Rejects where it was edited before that
   * was done: what was asked is about a text that is no more.
   */
  program(uri: string): Promise<Program | null>;
  /** The same with the analysis still to be made. */
  newest(uri: string): Promise<Program | null>;
}

/** From here on everything that this client may ask is answered. */
export function openSession(client: ClientFacts, connection: Connection, rim: Rim, log: Log): void {
  const session = newSession(client, connection, rim, log);
  followDocuments(session.connection, session);
  answerFeatures(session.connection, session);
  answerOwnRequests(session.connection, session);
}

function newSession(client: ClientFacts, connection: Connection, rim: Rim, log: Log): Session {
  const documents = new OpenDocuments();
  const openText = (uri: string) => documents.find(uri)?.text.toString() ?? null;
  const files = rim.files(client, connection);
  const profiles = new Profiles(files, openText, rim.now);
  const texts = new ProgramTexts(files, (uri) => documents.find(uri), rim.now);
  const calledFiles = new CalledFileFinder(texts);
  const counting = countingInUtf16(connection, client.text.encoding, {
    open: (uri) => documents.find(uri)?.text ?? null,
    read: async (uri) => {
      const text = await files.read(uri);
      return text === null ? null : SourceText.from(text);
    },
  });
  const session: Session = {
    rim,
    connection: counting,
    client,
    documents,
    profiles,
    files,
    texts,
    calledFiles,
    log,
    get findings() {
      return findings;
    },
    async program(uri) {
      const program = await session.newest(uri);
      if (!program) return null;
      const isNewest = () => documents.get(uri)?.version === program.version;
      if (await inPieces(rim, () => program.analyse(), isNewest)) return program;
      throw new ResponseError(LSPErrorCodes.ContentModified, 'The text was edited meanwhile.');
    },
    async newest(uri) {
      // Taken before anything is awaited: positions in a request are those of the text as it stands now.
      const document = documents.get(uri);
      if (document?.kind !== 'program') return null;
      const profile = await profiles.of(uri);
      findings.showProfile(profile);
      return document.program(profile, await calledFiles.of(uri, document.sourceUnder(profile)));
    },
  };
  const findings = new FindingsFlow(session, counting);
  return session;
}
