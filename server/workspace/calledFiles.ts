import { type CalledFile, type CalledFiles, type Lead, noCalledFiles } from '../analysis/calledFiles.ts';
import { type CallSite, calledNames } from '../analysis/callSites.ts';
import { proceduresOf } from '../analysis/procedures.ts';
import type { Source } from '../syntax/source.ts';
import { beside, comparable } from './address.ts';
import { calledFileNames } from './calledFileNames.ts';
import { fileName } from './documentKind.ts';
import { notChecked } from './limits.ts';
import type { ProgramTexts } from './programTexts.ts';

/** Beyond these a program's calls are not followed: it says so. UTF-16 code units of one file; files of one program. */
const mostCharacters = 20_000_000;
const mostFiles = 100;

interface Known {
  readonly called: CalledFiles;
  /** Every file that was looked for, there or not: a change of one of them may change what is called. */
  readonly rests: ReadonlySet<string>;
}

/** Finds the files that programs call, by the conventions of their dialect, and theirs in turn. No folder is searched. */
export class CalledFileFinder {
  readonly #texts: ProgramTexts;
  readonly #known = new Map<string, Known>();

  constructor(texts: ProgramTexts) {
    this.#texts = texts;
  }

  /** What the calls of a program lead to; the same object while nothing of it changed. Never rejects. */
  async of(uri: string, source: Source): Promise<CalledFiles> {
    if (callsOutside(source).length === 0 || notChecked(source.text) !== null) {
      this.#known.delete(uri);
      return noCalledFiles;
    }
    const search = new Search(this.#texts, uri, source);
    const called = await search.result();
    const before = this.#known.get(uri)?.called;
    const kept = before && sameCalled(before, called) ? before : called;
    this.#known.set(uri, { called: kept, rests: search.rests });
    return kept;
  }

  /** Programs whose calls were looked for in that file, whether it was there or not. */
  callersOf(uri: string): readonly string[] {
    const wanted = comparable(uri);
    return [...this.#known].filter(([, { rests }]) => rests.has(wanted)).map(([caller]) => caller);
  }

  /** The program is open no more. */
  forget(uri: string): void {
    this.#known.delete(uri);
    this.#texts.keepOnly(new Set([...this.#known.values()].flatMap(({ rests }) => [...rests])));
  }
}

/** One search from a program outwards. */
class Search {
  readonly rests = new Set<string>();
  readonly #texts: ProgramTexts;
  readonly #program: string;
  readonly #source: Source;
  readonly #files: CalledFile[] = [];
  readonly #leads = new Map<string, Found>();

  constructor(texts: ProgramTexts, program: string, source: Source) {
    this.#texts = texts;
    this.#program = program;
    this.#source = source;
  }

  async result(): Promise<FoundFiles> {
    await this.#follow('program', this.#program, this.#source);
    for (const [index, { uri, source }] of this.#growing()) await this.#follow(index, uri, source);
    return new FoundFiles(this.#files, this.#leads);
  }

  /** Files in the order in which they are found, those found meanwhile too. */
  *#growing(): Iterable<[number, CalledFile]> {
    for (let index = 0; index < this.#files.length; index++) yield [index, this.#files[index] as CalledFile];
  }

  async #follow(from: number | 'program', uri: string, source: Source): Promise<void> {
    const calls = callsOutside(source);
    const found = await Promise.all(calls.map((call) => this.#find(call, uri)));
    for (const [index, call] of calls.entries())
      this.#leads.set(`${from} ${call.name}`, this.#leadTo(found[index] ?? null));
  }

  #leadTo(found: CalledFile | Missing | string | null): Found {
    if (found === null) return null;
    if (typeof found !== 'string' && 'missing' in found)
      return { reason: notAtHand(found.missing), missing: found.missing };
    if (typeof found === 'string') return { reason: `${found}: what it leaves behind is unknown` };
    if (comparable(found.uri) === comparable(this.#program)) return { file: 'program' };
    const known = this.#files.findIndex(({ uri }) => uri === found.uri);
    if (known >= 0) return { file: known };
    if (this.#files.length >= mostFiles)
      return { reason: `more than ${mostFiles} called files are not followed` };
    return { file: this.#files.push(found) - 1 };
  }

  /** The file, why it is not followed, or null where none can be looked for. */
  async #find(call: CallSite, uri: string): Promise<CalledFile | Missing | string | null> {
    const names = calledFileNames(call, this.#source.dialect.name, fileName(uri));
    const addresses = names.flatMap((name) => beside(uri, name) ?? []);
    if (addresses.length === 0) return null;
    for (const address of addresses) {
      this.rests.add(comparable(address));
      const found = await this.#read(address);
      if (found !== null) return found;
    }
    return { missing: names[0] ?? '' };
  }

  async #read(uri: string): Promise<CalledFile | string | null> {
    const name = fileName(uri);
    try {
      const source = await this.#texts.source(uri, this.#source.dialect);
      if (source === null) return null;
      if (source.text.length > mostCharacters || notChecked(source.text) !== null)
        return `a call into ${name}, which is too large or no text`;
      return { uri, source };
    } catch (error) {
      return `a call into ${name}, which can't be read (${error instanceof Error ? error.message : String(error)})`;
    }
  }
}

type Found = Lead | null;

/** The name under which the file was looked for first. */
interface Missing {
  readonly missing: string;
}

function notAtHand(name: string): string {
  return `a call into a file that is not at hand (${name}): what it leaves behind is unknown`;
}

class FoundFiles implements CalledFiles {
  readonly files: readonly CalledFile[];
  readonly leads: ReadonlyMap<string, Found>;

  constructor(files: readonly CalledFile[], leads: ReadonlyMap<string, Found>) {
    this.files = files;
    this.leads = leads;
  }

  lead(from: number | 'program', name: string): Found {
    return this.leads.get(`${from} ${name}`) ?? null;
  }
}

/** Calls by name that the text itself does not answer, one for each name. */
function callsOutside(source: Source): CallSite[] {
  const names = calledNames(source);
  if (names.size === 0) return [];
  const { byName } = proceduresOf(source);
  return [...names.values()].filter(({ name }) => !byName.has(name));
}

function sameCalled(a: CalledFiles, b: FoundFiles): boolean {
  if (!(a instanceof FoundFiles) || a.files.length !== b.files.length || a.leads.size !== b.leads.size)
    return false;
  const sameFiles = a.files.every(({ uri, source }, index) => {
    const other = b.files[index];
    return other?.uri === uri && other.source === source;
  });
  return sameFiles && [...a.leads].every(([key, lead]) => sameLead(lead, b.leads.get(key) ?? null));
}

function sameLead(a: Found, b: Found): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
