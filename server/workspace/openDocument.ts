import { type CalledFiles, noCalledFiles } from '../analysis/calledFiles.ts';
import { detectDialect } from '../syntax/detectDialect.ts';
import type { Dialect, DialectName } from '../syntax/dialect.ts';
import { dialects } from '../syntax/dialects.ts';
import { Source } from '../syntax/source.ts';
import { SourceText } from '../syntax/sourceText.ts';
import { type DocumentKind, documentKind } from './documentKind.ts';
import type { FileProfile } from './fileProfile.ts';
import { Program, type ProgramMemory, programMemory } from './program.ts';

/** A position as the protocol counts: 0-based line, UTF-16 character; may lie outside of the text. */
export interface Point {
  readonly line: number;
  readonly character: number;
}

/** `range` absent: the whole text. */
export interface Change {
  readonly range?: { readonly start: Point; readonly end: Point } | undefined;
  readonly text: string;
}

/** One version of a document that a client has open; a change makes another, sharing all chunks but the touched. */
export class OpenDocument {
  readonly uri: string;
  readonly languageId: string;
  readonly version: number;
  readonly kind: DocumentKind;
  #source: Source;
  #program: Program | null = null;
  #other: Source | null = null;
  /** The same for all versions. */
  readonly #remembered: { memory: ProgramMemory | null };

  private constructor(
    uri: string,
    languageId: string,
    version: number,
    kind: DocumentKind,
    source: Source,
    remembered: { memory: ProgramMemory | null } = { memory: null },
  ) {
    this.uri = uri;
    this.languageId = languageId;
    this.version = version;
    this.kind = kind;
    this.#source = source;
    this.#remembered = remembered;
  }

  static open(uri: string, languageId: string, version: number, text: string): OpenDocument {
    const kind = documentKind(uri, languageId, text.slice(0, 8000));
    const sourceText = SourceText.from(text);
    const dialect = kind === 'program' ? detectDialect(sourceText).dialect : 'rs274ngc';
    return new OpenDocument(uri, languageId, version, kind, Source.from(sourceText, dialects[dialect]));
  }

  get text(): SourceText {
    return this.#source.text;
  }

  changed(version: number, changes: readonly Change[]): OpenDocument {
    let source = this.#source;
    for (const { range, text } of changes) {
      source = range ? source.edit(placed(range, text)) : Source.from(SourceText.from(text), source.dialect);
    }
    return new OpenDocument(this.uri, this.languageId, version, this.kind, source, this.#remembered);
  }

  /** The text in a dialect, which need not be its own: a called file runs in that of its caller. */
  inDialect(dialect: Dialect): Source {
    if (this.#source.dialect === dialect) return this.#source;
    const source = this.#other?.dialect === dialect ? this.#other : Source.from(this.#source.text, dialect);
    this.#other = source;
    return source;
  }

  /** The text in the dialect that it has under this profile. */
  sourceUnder(profile: FileProfile): Source {
    if (this.#program?.profile === profile) return this.#program.source;
    const dialect = dialectOf(this.#source.text, profile);
    if (this.#source.dialect.name !== dialect) this.#source = this.inDialect(dialects[dialect]);
    return this.#source;
  }

  /** The document as a program under this profile with the files that it calls; the same as long as none changes. */
  program(profile: FileProfile, called: CalledFiles = noCalledFiles): Program {
    if (this.#program?.profile === profile && this.#program.called === called) return this.#program;
    const source = this.sourceUnder(profile);
    this.#program = new Program(this.uri, this.version, source, this.#memoryUnder(profile), called);
    return this.#program;
  }

  #memoryUnder(profile: FileProfile): ProgramMemory {
    const { memory } = this.#remembered;
    if (memory?.profile === profile) return memory;
    this.#remembered.memory = programMemory(profile);
    return this.#remembered.memory;
  }
}

/** A comment in the file goes before the profile, the profile before what the text looks like. */
export function dialectOf(text: SourceText, { profile }: FileProfile): DialectName {
  const detected = detectDialect(text);
  return detected.commentOverride ? detected.dialect : (profile.dialect ?? detected.dialect);
}

/** Clients send ends beyond the line or the text ("to the end"); `edit` takes them as the end. */
function placed({ start, end }: NonNullable<Change['range']>, text: string) {
  return { line: start.line, start: start.character, endLine: end.line, end: end.character, text };
}
