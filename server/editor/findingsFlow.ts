import {
  type CancellationToken,
  type Connection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from 'vscode-languageserver';
import type { FileProfile } from '../workspace/fileProfile.ts';
import type { Program } from '../workspace/program.ts';
import { programDiagnostics } from './diagnostics.ts';
import { stopIfCancelled } from './guard.ts';
import { profileDiagnostics } from './profileDiagnostics.ts';
import type { Session } from './session.ts';

/** Edits come in bursts: work begins when none came for this long, ms; for a program that takes longer, for that long. */
const quietTime = 40;
const longestQuietTime = 1000;
/** Somebody who never stops typing gets findings all the same, after so many quiet times. */
const patience = 10;

/** Brings findings to the client: on its asking where it asks, else by itself; never those of an older version. */
export class FindingsFlow {
  readonly #session: Session;
  readonly #connection: Connection;
  readonly #changed = new Map<string, number>();
  /** How long the findings of a document took, ms. */
  readonly #cost = new Map<string, number>();
  readonly #pushing = new Set<string>();
  readonly #resultIds = new WeakMap<Program, string>();
  readonly #shownProfiles = new Map<string, FileProfile>();
  #lastId = 0;

  constructor(session: Session, connection: Connection) {
    this.#session = session;
    this.#connection = connection;
  }

  /** A document was opened or edited, or its profile changed. */
  changed(uri: string): void {
    this.#changed.set(uri, this.#session.rim.now());
    if (!this.#session.client.pullsFindings) void this.#push(uri);
  }

  closed(uri: string): void {
    this.#changed.delete(uri);
    this.#cost.delete(uri);
    if (!this.#session.client.pullsFindings) this.#publish(uri, undefined, []);
  }

  async pull(
    uri: string,
    previous: string | undefined,
    token: CancellationToken,
  ): Promise<DocumentDiagnosticReport> {
    await this.#quiet(uri);
    stopIfCancelled(token);
    const program = await this.#session.program(uri);
    stopIfCancelled(token);
    if (!program) return { kind: DocumentDiagnosticReportKind.Full, items: this.#pulledProfile(uri) };
    const resultId = this.#resultId(program);
    if (resultId === previous) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
    return {
      kind: DocumentDiagnosticReportKind.Full,
      resultId,
      items: this.#diagnostics(program),
    };
  }

  /** A profile's problems stand in its own file, open or not, until they are mended or the file is gone. */
  showProfile(profile: FileProfile): void {
    const { uri } = profile;
    if (uri === null || !this.#session.client.takesPushes || this.#shownProfiles.get(uri) === profile) return;
    const hadProblems = (this.#shownProfiles.get(uri)?.problems.length ?? 0) > 0;
    this.#shownProfiles.set(uri, profile);
    if (hadProblems || profile.problems.length > 0)
      this.#publish(uri, undefined, profileDiagnostics(profile));
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
      await this.#quiet(uri);
      const program = await this.#session.program(uri);
      const version = this.#session.documents.get(uri)?.version;
      if (!program || version === undefined) return;
      if (version !== program.version) continue;
      this.#publish(uri, version, this.#diagnostics(program));
      return;
    }
  }

  /** Waits until no newer edit is on its way: edits go first. */
  async #quiet(uri: string): Promise<void> {
    const { now, wait } = this.#session.rim;
    const quiet = Math.min(longestQuietTime, Math.max(quietTime, this.#cost.get(uri) ?? 0));
    const end = now() + patience * quiet;
    for (;;) {
      const rest = (this.#changed.get(uri) ?? 0) + quiet - now();
      if (rest <= 0 || now() >= end) return;
      await wait(Math.min(rest, end - now()));
    }
  }

  #diagnostics(program: Program): Diagnostic[] {
    const { rim, client } = this.#session;
    const start = rim.now();
    const diagnostics = programDiagnostics(program, client);
    this.#cost.set(program.uri, rim.now() - start);
    return diagnostics;
  }

  #pulledProfile(uri: string) {
    const document = this.#session.documents.get(uri);
    if (document?.kind !== 'profile' || this.#session.client.takesPushes) return [];
    return profileDiagnostics(this.#session.profiles.read(uri, document.text.toString()));
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
