import type { Dialect, DialectName } from '../syntax/dialect.ts';
import { Source } from '../syntax/source.ts';
import { SourceText } from '../syntax/sourceText.ts';
import { comparable } from './address.ts';
import type { Files } from './files.ts';
import type { OpenDocument } from './openDocument.ts';

/** Not every folder is watched: what was read is read again after this, ms. */
const freshFor = 5000;

interface Read {
  readonly at: number;
  /** null: there is no such file. */
  readonly text: string | null;
  readonly sources: Map<DialectName, Source>;
}

/** Programs by their address: as the editor has them where they are open, else as they were last read. */
export class ProgramTexts {
  readonly #files: Pick<Files, 'read'>;
  readonly #open: (uri: string) => OpenDocument | null;
  readonly #now: () => number;
  readonly #read = new Map<string, Read>();
  readonly #reading = new Map<string, Promise<Read>>();

  constructor(files: Pick<Files, 'read'>, open: (uri: string) => OpenDocument | null, now: () => number) {
    this.#files = files;
    this.#open = open;
    this.#now = now;
  }

  /** The same object while the text is the same; null: no such file. Rejects where the file can't be read. */
  async source(uri: string, dialect: Dialect): Promise<Source | null> {
    const open = this.#open(uri);
    if (open?.kind === 'profile') return null;
    if (open) return open.inDialect(dialect);
    const { text, sources } = await this.#newest(uri);
    if (text === null) return null;
    const source = sources.get(dialect.name) ?? Source.from(SourceText.from(text), dialect);
    sources.set(dialect.name, source);
    return source;
  }

  /** The file was written, made, moved or deleted. */
  forget(uri: string): void {
    this.#read.delete(comparable(uri));
    this.#reading.delete(comparable(uri));
  }

  /** Lets go of texts that nothing needs any more. */
  keepOnly(needed: ReadonlySet<string>): void {
    for (const key of this.#read.keys()) if (!needed.has(key)) this.#read.delete(key);
  }

  async #newest(uri: string): Promise<Read> {
    const key = comparable(uri);
    const known = this.#read.get(key);
    if (known && this.#now() - known.at < freshFor) return known;
    const reading = this.#reading.get(key) ?? this.#readAgain(uri, key, known);
    this.#reading.set(key, reading);
    return reading;
  }

  async #readAgain(uri: string, key: string, known: Read | undefined): Promise<Read> {
    try {
      const text = await this.#files.read(uri);
      const sources = known?.text === text ? known.sources : new Map<DialectName, Source>();
      const read = { at: this.#now(), text, sources };
      this.#read.set(key, read);
      return read;
    } finally {
      this.#reading.delete(key);
    }
  }
}
