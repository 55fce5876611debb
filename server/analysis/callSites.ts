import { ChunkFacts } from '../syntax/chunkFacts.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';

/** A call that says in the text what it calls. */
export interface CallSite {
  /** As calls and subroutines are compared: lower case, blanks and leading zeros out. */
  readonly name: string;
  /** As it is written, blanks out. */
  readonly written: string;
  readonly form: 'o-word' | CallCode;
  /** Of the name alone. */
  readonly place: Place;
}

/** The calls of a text in order, computed ones left out. A chunk of the text that did not change is not read again. */
export function* callSites(source: Source): Iterable<CallSite> {
  for (const { firstLine, fact } of sitesInChunk.in(source))
    for (const site of fact) yield { ...site, place: { ...site.place, line: site.place.line + firstLine } };
}

/** Finds them all, for `callSites` to have them at hand; yields where it may pause. */
export function lookForCalls(source: Source): Generator<undefined, void> {
  return sitesInChunk.lookThrough(source);
}

/** The names that are called, each once. */
export function calledNames(source: Source): ReadonlyMap<string, CallSite> {
  const names = new Map<string, CallSite>();
  for (const { fact } of sitesInChunk.in(source))
    for (const site of fact) if (!names.has(site.name)) names.set(site.name, site);
  return names;
}

/** The call of a block, its line given; null where it calls nothing by name. */
export function callSiteOf(block: Block, line: number): CallSite | null {
  for (const item of block.items) {
    if (item.kind === 'flow' && item.form === 'o-word' && item.keyword === 'call' && item.label !== null) {
      const { start, end } = labelName(block.text, item.labelSpan);
      const written = block.text.slice(start, end).replace(/[ \t]/g, '');
      return { name: item.label, written, form: 'o-word', place: { line, start, end } };
    }
  }
  const words = block.items.filter((item) => item.kind === 'word');
  const form = words.flatMap(({ letter, value }) =>
    value.kind === 'number' ? (callCodes.get(`${letter}${value.value}`) ?? []) : [],
  )[0];
  const called = words.find(({ letter }) => letter === 'P');
  if (!form || called?.value.kind !== 'number') return null;
  // With the number of an input M96 is a jump within the program on some controls (common practice, no source).
  if (form === 'M96' && words.some(({ letter }) => letter === 'Q')) return null;
  const { value, start, end } = called.value;
  return {
    name: String(Math.round(value)),
    written: block.text.slice(start, end),
    form,
    place: { line, start, end },
  };
}

/** The span of the name in an O-word's label: `<edge>` without its brackets, `100` without its `o`. */
export function labelName(
  text: string,
  { start, end }: { readonly start: number; readonly end: number },
): { readonly start: number; readonly end: number } {
  const named = text.indexOf('<', start);
  if (named >= 0 && named < end) return { start: named + 1, end: end - 1 };
  let from = start + 1;
  while (from < end && /[ \t]/.test(text.charAt(from))) from++;
  return { start: from, end };
}

/** M96 names the program that a signal calls. */
type CallCode = 'G65' | 'G66' | 'G66.1' | 'M96' | 'M98';

const callCodes: ReadonlyMap<string, CallCode> = new Map(
  (['G65', 'G66', 'G66.1', 'M96', 'M98'] as const).map((code) => [code, code]),
);

/** Blanks count for nothing, also inside a keyword or a number. */
const mayCall = /c\s*a\s*l\s*l|m[\s0+]*9\s*[68]|g[\s0+]*6\s*[56]/i;

/** Lines are counted in the chunk. */
const sitesInChunk = new ChunkFacts<readonly CallSite[]>((chunk, lines, dialect) => {
  const found = lines.flatMap((line) => {
    const text = chunk.line(line);
    return (mayCall.test(text) ? callSiteOf(parseBlock(text, dialect), line) : null) ?? [];
  });
  return found.length > 0 ? found : null;
});
