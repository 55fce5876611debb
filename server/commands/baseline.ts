import { dirname, relative, resolve } from 'node:path';
import * as z from 'zod/mini';
import type { Finding } from '../checks/rule.ts';
import type { Source } from '../syntax/source.ts';
import { shownPath } from './paths.ts';
import type { FileProblem, Terminal } from './terminal.ts';

const definition = z.strictObject({
  version: z.literal(1),
  findings: z.array(
    z.strictObject({
      path: z.string(),
      rule: z.string(),
      block: z.string(),
      count: z.int().check(z.positive()),
    }),
  ),
});

/** Findings of one rule at blocks of one text in one program: so an entry holds when lines come or go above it. */
type Entry = z.infer<typeof definition>['findings'][number];

/** Findings that a shop knows of and leaves as they are: only new ones are reported. */
export class Baseline {
  readonly #left = new Map<string, { readonly entry: Entry; count: number }>();
  readonly #seen = new Set<string>();

  private constructor(
    private readonly file: string,
    entries: readonly Entry[],
  ) {
    for (const entry of entries) {
      const known = this.#left.get(keyOf(entry));
      if (known) known.count += entry.count;
      else this.#left.set(keyOf(entry), { entry, count: entry.count });
    }
  }

  /** Reads a baseline file (absolute path). */
  static read(file: string, terminal: Terminal): Baseline | FileProblem {
    const shown = shownPath(terminal.cwd, file);
    const read = terminal.files.read(file);
    if ('problem' in read)
      return { problem: `${shown}: cannot be read: ${read.problem}. --write-baseline makes one.` };
    const entries = entriesOf(new TextDecoder().decode(read.bytes));
    return entries
      ? new Baseline(file, entries)
      : { problem: `${shown}: is no baseline. --write-baseline makes one.` };
  }

  /** The findings of a program that the baseline does not hold. `program`: absolute path; null: standard input. */
  fresh(program: string | null, source: Source, findings: readonly Finding[]): readonly Finding[] {
    const path = pathIn(this.file, program);
    this.#seen.add(path);
    return findings.filter((finding) => {
      const known = this.#left.get(keyOf({ path, rule: finding.rule, block: blockOf(finding, source) }));
      if (!known || known.count === 0) return true;
      known.count--;
      return false;
    });
  }

  /** Entries that nothing answers to any more, of the programs that were checked and of those that are gone. */
  stale(terminal: Terminal): readonly string[] {
    const isGone = (path: string) => terminal.files.look(resolve(dirname(this.file), path)) === null;
    return [...this.#left.values()].flatMap(({ entry, count }) => {
      if (count === 0 || !(this.#seen.has(entry.path) || isGone(entry.path))) return [];
      const times = count === 1 ? '' : ` (${count} times)`;
      return [`${entry.path}: no ${entry.rule} at "${entry.block}"${times} any more.`];
    });
  }
}

/** Collects the findings of programs and gives the text of their baseline. */
export class NewBaseline {
  readonly #counts = new Map<string, { readonly entry: Omit<Entry, 'count'>; count: number }>();

  /** @param file where it will be written, absolute: paths in it are told from there */
  constructor(private readonly file: string) {}

  add(program: string | null, source: Source, findings: readonly Finding[]): void {
    const path = pathIn(this.file, program);
    for (const finding of findings) {
      const entry = { path, rule: finding.rule, block: blockOf(finding, source) };
      const known = this.#counts.get(keyOf(entry));
      if (known) known.count++;
      else this.#counts.set(keyOf(entry), { entry, count: 1 });
    }
  }

  get count(): number {
    return [...this.#counts.values()].reduce((sum, { count }) => sum + count, 0);
  }

  /** One entry a line, in an order that does not depend on the run: differences read well. */
  text(): string {
    const entries = [...this.#counts.values()].map(({ entry, count }) => ({ ...entry, count }));
    const lines = entries
      .sort((a, b) => (keyOf(a) < keyOf(b) ? -1 : 1))
      .map((entry) => `\n    ${JSON.stringify(entry)}`);
    return `{\n  "version": 1,\n  "findings": [${lines.join(',')}${lines.length > 0 ? '\n  ' : ''}]\n}\n`;
  }
}

function entriesOf(text: string): readonly Entry[] | null {
  try {
    const { success, data } = z.safeParse(definition, JSON.parse(text));
    return success ? data.findings : null;
  } catch {
    return null;
  }
}

function keyOf({ path, rule, block }: Omit<Entry, 'count'>): string {
  return JSON.stringify([path, rule, block]);
}

function pathIn(file: string, program: string | null): string {
  return program === null ? '-' : relative(dirname(file), program).replaceAll('\\', '/');
}

/** Without its N number and with single blanks: renumbering and indenting change nothing. */
function blockOf({ place }: Finding, source: Source): string {
  const block = source.block(place.line);
  const number = block.lineNumber;
  const text = number ? block.text.slice(0, number.start) + block.text.slice(number.end) : block.text;
  return text.replace(/\s+/g, ' ').trim().slice(0, longestBlock);
}

const longestBlock = 200;
