import {
  type CancellationToken,
  type Connection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from 'vscode-languageserver';
import { readSetup } from '../rehearsal/readSetup.ts';
import type { FileProfile } from '../workspace/fileProfile.ts';
import type { Program } from '../workspace/program.ts';
import { programDiagnostics } from './diagnostics.ts';
import { stopIfCancelled } from './guard.ts';
import { inPieces } from './inPieces.ts';
import { problemDiagnostics } from './problemDiagnostics.ts';
import type { Session } from './session.ts';

/** Brings findings to the client: on its asking where it asks, else by itself; never those of an older version. */
export class FindingsFlow {
  readonly #session: Session;
  readonly #connection: Connection;
  /** The number of the last change of a document, or of what its findings rest on. */
  readonly #changes = new Map<string, number>();
  #lastChange = 0;
  readonly #pushing = new Set<string>();
  readonly #resultIds = new WeakMap<Program, string>();
  readonly #shownProfiles = new Map<string, FileProfile>();
  #lastId = 0;

  constructor(session: Session, connection: Connection) {
    this.#session = session;
    this.#connection = connection;
  }

  /** A document was opened or edited, or what its findings rest on changed. */
  changed(uri: string): void {
    this.#changes.set(uri, ++this.#lastChange);
    if (!this.#session.client.pullsFindings) void this.#push(uri);
  }

  closed(uri: string): void {
    this.#changes.delete(uri);
    if (!this.#session.client.pullsFindings) this.#publish(uri, undefined, []);
  }

  async pull(
    uri: string,
    previous: string | undefined,
    token: CancellationToken,
  ): Promise<DocumentDiagnosticReport> {
    const program = await this.#checked(uri, () => !token.isCancellationRequested);
    stopIfCancelled(token);
    if (!program) return { kind: DocumentDiagnosticReportKind.Full, items: this.#pulledOther(uri) };
    const resultId = this.#resultId(program);
    if (resultId === previous) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
    return { kind: DocumentDiagnosticReportKind.Full, resultId, items: this.#diagnostics(program) };
  }

  /** A profile's problems stand in its own file, open or not, until they are mended or the file is gone. */
  showProfile(profile: FileProfile): void {
    const { uri } = profile;
    if (uri === null || !this.#session.client.takesPushes || this.#shownProfiles.get(uri) === profile) return;
    const hadProblems = (this.#shownProfiles.get(uri)?.problems.length ?? 0) > 0;
    this.#shownProfiles.set(uri, profile);
    if (hadProblems || profile.problems.length > 0)
      this.#publish(uri, undefined, problemDiagnostics(profile.problems));
  }

  /** Looks again at every profile that has been shown. */
  async showProfilesAgain(): Promise<void> {
    for (const uri of this.#shownProfiles.keys()) {
      const profile = await this.#session.profiles.reread(uri);
      if (profile) this.showProfile(profile);
      else {
        this.#shownProfiles.delete(uri);
        this.#publish(uri, undefined, []);
      }
    }
  }

  async #push(uri: string): Promise<void> {
    if (this.#pushing.has(uri)) return;
    this.#pushing.add(uri);
    try {
      await this.#pushNewest(uri);
    } catch (error) {
      this.#session.log(`findings of ${uri} failed: ${error instanceof Error ? error.stack : String(error)}`);
    } finally {
      this.#pushing.delete(uri);
    }
  }

  async #pushNewest(uri: string): Promise<void> {
    for (;;) {
      const program = await this.#checked(uri, () => true);
      const version = this.#session.documents.get(uri)?.version;
      if (version === undefined) return;
      if (!program) {
        this.#publish(uri, version, this.#setupDiagnostics(uri));
        return;
      }
      if (version !== program.version) continue;
      this.#publish(uri, version, this.#diagnostics(program));
      return;
    }
  }

  /** The newest version with its findings, however many come meanwhile; null: no program, or not wanted any more. */
  async #checked(uri: string, isWanted: () => boolean): Promise<Program | null> {
    while (isWanted()) {
      const change = this.#changes.get(uri);
      const program = await this.#session.newest(uri);
      if (!program) return null;
      const isNewest = () => this.#changes.get(uri) === change;
      const done = await inPieces(
        this.#session.rim,
        () => program.check(),
        () => isWanted() && isNewest(),
      );
      if (done && isNewest()) return program;
    }
    return null;
  }

  #diagnostics(program: Program): Diagnostic[] {
    return programDiagnostics(program, this.#session.client);
  }

  #pulledOther(uri: string): Diagnostic[] {
    const document = this.#session.documents.get(uri);
    if (document?.kind === 'setup') return this.#setupDiagnostics(uri);
    if (document?.kind !== 'profile' || this.#session.client.takesPushes) return [];
    return problemDiagnostics(this.#session.profiles.read(uri, document.text.toString()).problems);
  }

  #setupDiagnostics(uri: string): Diagnostic[] {
    const document = this.#session.documents.get(uri);
    return document?.kind === 'setup' ? problemDiagnostics(readSetup(document.text.toString()).problems) : [];
  }

  #resultId(program: Program): string {
    const known = this.#resultIds.get(program) ?? String(++this.#lastId);
    this.#resultIds.set(program, known);
    return known;
  }

  #publish(uri: string, version: number | undefined, diagnostics: readonly Diagnostic[]): void {
    const versioned = version === undefined ? {} : { version };
    void this.#connection.sendDiagnostics({ uri, diagnostics: [...diagnostics], ...versioned });
  }
}
