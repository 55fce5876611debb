import { routines } from '../routines/registry.ts';
import type { Routine } from '../routines/routine.ts';
import { asRead, checkSum, headerStart, type MadeFrom, readHeader, readSeal } from '../routines/seal.ts';
import { writeRoutine } from '../routines/writeRoutine.ts';
import { ChunkFacts } from '../syntax/chunkFacts.ts';
import type { Source } from '../syntax/source.ts';
import type { Program } from '../workspace/program.ts';
import { usedLabels, usedParameters } from './routinePlace.ts';

/** A routine that Probewright wrote into a program, as it stands there and as it would be written now. */
export interface WrittenBlock {
  readonly routine: Routine;
  /** Half-open, of lines. */
  readonly from: number;
  readonly to: number;
  /** Somebody changed it since it was written. */
  readonly isEdited: boolean;
  /** What the profile says otherwise than when it was written, in words; empty: nothing. */
  readonly changes: readonly string[];
  /** Its lines as they would be written now; where it can't be, why. */
  readonly now: { readonly lines: readonly string[] } | { readonly reason: string };
}

const known = new WeakMap<Program, readonly WrittenBlock[]>();

/** The written routines of a program that differ from what its profile would give now. */
export function agedBlocks(program: Program): readonly WrittenBlock[] {
  const found = known.get(program) ?? findBlocks(program).filter(({ changes }) => changes.length > 0);
  known.set(program, found);
  return found;
}

/** Lines of a chunk where a routine may begin, counted in it. */
const starts = new ChunkFacts<readonly number[]>((chunk, lines) => {
  const found = lines.filter((line) => headerStart.test(chunk.line(line)));
  return found.length > 0 ? found : null;
});

function findBlocks(program: Program): WrittenBlock[] {
  const { source } = program;
  const headers = [...starts.in(source)].flatMap(({ firstLine, fact }) =>
    fact.map((line) => firstLine + line).filter((line) => source.classOf(line) === 2),
  );
  return headers.flatMap((header, i) => {
    const end = sealBehind(source, header, headers[i + 1] ?? source.lineCount);
    return end === null ? [] : (readBlock(program, header, end) ?? []);
  });
}

function sealBehind(source: Source, header: number, limit: number) {
  for (let line = header + 1; line < limit; line++) {
    const seal = readSeal(source.text.line(line));
    if (seal) return { line, sum: seal.sum };
  }
  return null;
}

function readBlock(
  program: Program,
  header: number,
  end: { readonly line: number; readonly sum: string },
): WrittenBlock | null {
  const { source, profile } = program;
  const made = readHeader(headerLines(linesOf(source, header, end.line)));
  const routine = routines.find(({ title }) => title.toLowerCase() === made?.title.toLowerCase());
  if (!made || !routine) return null;
  const now = profile.problems.length > 0 ? null : writtenNow(program, routine, made, [header, end.line]);
  if (now === null) return null;
  const from = 'lines' in now ? header - now.lines.findIndex((line) => headerStart.test(line)) : header;
  const lines = linesOf(source, from, end.line);
  const isEdited = checkSum(lines) !== end.sum;
  const changes =
    'reason' in now
      ? [`it can't be written for the profile as it is: ${now.reason}`]
      : changesOf(lines, now.lines.slice(0, -1), isEdited);
  return { routine, from, to: end.line + 1, isEdited, changes, now };
}

function writtenNow(
  program: Program,
  routine: Routine,
  made: MadeFrom,
  [header, end]: readonly [number, number],
): WrittenBlock['now'] {
  const { source, profile } = program;
  const inside = (line: number) => line >= header - 1 && line <= end;
  const outside = <T>(used: (source: Source, counts: (line: number) => boolean) => Set<T>) => {
    const own = used(source, inside);
    return new Set([...used(source, (line) => !inside(line))].filter((each) => !own.has(each)));
  };
  const written = writeRoutine(routine, namesOf(routine, made.inputs), {
    profile: profile.profile,
    dialect: source.dialect.name,
    form: made.form,
    units: made.units,
    usedParameters: outside(usedParameters),
    usedLabels: outside(usedLabels),
  });
  if ('problems' in written) return { reason: written.problems.map(({ message }) => message).join(' ') };
  return { lines: written.text.replace(/\n$/, '').split('\n') };
}

/** The macro family writes names in capitals. */
function namesOf(routine: Routine, inputs: MadeFrom['inputs']): MadeFrom['inputs'] {
  return Object.fromEntries(
    Object.entries(inputs).map(([name, value]) => {
      const input = routine.inputs.find((each) => each.name.toLowerCase() === name.toLowerCase());
      return [input?.name ?? name, value];
    }),
  );
}

/** What the profile changed; of a block that nobody edited, also what a newer version of ours writes otherwise. */
function changesOf(lines: readonly string[], now: readonly string[], isEdited: boolean): string[] {
  if (canonical(lines) === canonical(now)) return [];
  const [was, is] = [sectionsOf(lines), sectionsOf(now)];
  const changes = [
    ...(was.feeds === is.feeds ? [] : ['other feeds']),
    ...(was.tip === is.tip ? [] : ['another effective tip diameter']),
  ];
  return changes.length > 0 || isEdited ? changes : ['steps that are written otherwise now'];
}

/** The sentences of a header that come from the profile. */
function sectionsOf(lines: readonly string[]): { readonly feeds: string; readonly tip: string } {
  const text = headerLines(lines)
    .map((line) => line.replace(/^[^(]*\(|\)[^)]*$/g, ''))
    .join(' ')
    .toUpperCase();
  const [, feeds = '', tip = ''] = /FEEDS: (.*?)\.(?= |$)(.*?)IT NEEDS A CONTROL/.exec(text) ?? [];
  return { feeds, tip };
}

function headerLines(lines: readonly string[]): readonly string[] {
  const first = lines.findIndex((line) => headerStart.test(line));
  const rest = lines.slice(Math.max(first, 0));
  const behind = rest.findIndex((line) => !/^\s*(?:n\s*\d+\s*)?\(/i.test(line));
  return behind < 0 ? rest : rest.slice(0, behind);
}

/** What lines say, with labels and common variables by the order in which they come: other numbers do the same. */
function canonical(lines: readonly string[]): string {
  const met = new Map<string, number>();
  return lines
    .map(asRead)
    .join('\n')
    .replace(/(GOTO|#|^O)(\d{3})(?!\d)/gm, (_, before: string, number: string) => {
      const name = `${before === '#' ? '#' : 'label'}${number}`;
      const order = met.get(name) ?? met.size;
      met.set(name, order);
      return `${before}:${order}`;
    });
}

function linesOf(source: Source, from: number, to: number): string[] {
  return Array.from({ length: Math.max(0, to - from) }, (_, i) => source.text.line(from + i));
}
