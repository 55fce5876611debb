import type { Procedure } from '../analysis/procedures.ts';
import { argumentNumbers } from '../program/macroArguments.ts';
import type { Source } from '../syntax/source.ts';
import type { Item } from '../syntax/tree.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { Program } from '../workspace/program.ts';
import { knownPrograms } from '../workspace/relatedPrograms.ts';
import { letterMeaning } from './letters.ts';
import { parameterName } from './parameterName.ts';
import { parametersOf } from './wordAt.ts';

/** What a subroutine takes in one of its numbered locals. */
export interface CallArgument {
  /** 1 for `#1`. */
  readonly number: number;
  /** Letter that carries it in a macro call; null where the dialect counts brackets. */
  readonly letter: string | null;
  /** What it is, as the program says it: by a comment or the name it is given first; null: nothing says it. */
  readonly name: string | null;
  /** Its first use, for people. */
  readonly use: string;
}

/** Lines of a body that are looked through; what a longer one takes shows at its beginning. */
const mostLines = 2000;

/**
 * The arguments that a subroutine reads, in the order of their numbers, those in between too where brackets count.
 * @param file its name, where it is not the one that is looked at
 */
export function argumentsOf(
  source: Source,
  procedure: Procedure,
  file: string | null = null,
): CallArgument[] {
  const uses = firstUses(source, procedure, file);
  const names = namesInComments(source, procedure);
  const macro = source.dialect.macroFlow;
  const known = new Set([...uses.keys(), ...names.keys()]);
  const last = Math.max(0, ...known);
  const numbers = macro
    ? [...known].sort((a, b) => a - b)
    : Array.from({ length: last }, (_, index) => index + 1);
  return numbers.flatMap((number) => {
    const letter = macro ? (letterOf.get(number) ?? null) : null;
    if (macro && letter === null) return [];
    const use = uses.get(number);
    const name = names.get(number) ?? use?.name ?? null;
    return [{ number, letter, name, use: use?.text ?? 'not used by the subroutine' }];
  });
}

/** The arguments of the subroutine that a call of this name runs, in this file or another; null where it is not known. */
export function argumentsOfCall(program: Program, name: string): CallArgument[] | null {
  const [own] = knownPrograms([program]);
  const callee = own?.callee(name);
  if (!callee) return null;
  const file = callee.uri === program.uri ? null : fileName(callee.uri);
  return argumentsOf(callee.source, callee.procedure, file);
}

const letterOf: ReadonlyMap<number, string> = new Map(
  Object.entries(argumentNumbers).map(([letter, number]) => [number, letter]),
);

interface FirstUse {
  readonly name: string | null;
  readonly text: string;
}

function firstUses(source: Source, { ranges }: Procedure, file: string | null): Map<number, FirstUse> {
  const uses = new Map<number, FirstUse>();
  const set = new Set<number>();
  const most = source.dialect.macroFlow ? 26 : 30;
  for (const [from, to] of ranges) {
    for (let line = from; line < Math.min(to, from + mostLines); line++) {
      if (source.classOf(line) < 2 || !source.text.line(line).includes('#')) continue;
      for (const item of source.block(line).items) {
        for (const { parameter, isSet } of parametersOf(item)) {
          const number = Number(parameterName(parameter) ?? Number.NaN);
          if (!(number >= 1 && number <= most) || uses.has(number) || set.has(number)) continue;
          // What the body sets before it reads it is no argument.
          if (isSet) set.add(number);
          else uses.set(number, useIn(source, item, line, file));
        }
      }
    }
  }
  return uses;
}

function useIn(source: Source, item: Item, line: number, file: string | null): FirstUse {
  const block = source.block(line);
  const { text } = block;
  const said = `line ${line + 1}${file === null ? '' : ` of ${file}`}: ${text.slice(item.start, item.end).trim()}`;
  if (item.kind === 'setting' && item.value.kind === 'parameter') {
    const name = parameterName(item.target);
    return { name: name !== null && !/^\d/.test(name) ? name : null, text: said };
  }
  if (item.kind !== 'word') return { name: null, text: said };
  const meaning = letterMeaning(item, block, source.dialect.name);
  const name = 'XYZ'.includes(item.letter) ? item.letter : item.letter === 'F' ? 'feed' : null;
  return { name, text: meaning ? `${said} (${meaning.title})` : said };
}

/** `#1 = depth`, `#2: feed`, `A (#1) width` in the comments of the header, above it or right below. */
function namesInComments(source: Source, { header, ranges }: Procedure): Map<number, string> {
  const names = new Map<number, string>();
  const first = header >= 0 ? header : (ranges[0]?.[0] ?? 0);
  let above = first;
  while (above > 0 && above > first - 20 && isCommentLine(source, above - 1)) above--;
  let below = first + 1;
  while (below < first + 20 && isCommentLine(source, below)) below++;
  for (let line = above; line < below; line++) {
    for (const item of source.block(line).items) {
      if (item.kind !== 'comment') continue;
      for (const [, number, name] of item.text.matchAll(named))
        if (number && name && !names.has(Number(number)))
          names.set(Number(number), name.trim().toLowerCase());
    }
  }
  return names;
}

/** A number, a sign of equality, and up to 40 characters before the next such or a comma. */
const named = /#\s*(\d{1,2})\s*[)\]]?\s*(?:=|:|-|–|is\b)\s*([A-Za-z][^,;#()]{0,39}?)\s*(?=[,;#()]|$)/gi;

function isCommentLine(source: Source, line: number): boolean {
  if (!/^\s*[(;]/.test(source.text.line(line))) return false;
  return source.block(line).items.every((item) => item.kind === 'comment');
}
