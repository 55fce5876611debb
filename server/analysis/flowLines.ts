import { ChunkFacts } from '../syntax/chunkFacts.ts';
import type { Dialect } from '../syntax/dialect.ts';
import type { Source } from '../syntax/source.ts';

const kept = new WeakMap<Source, readonly number[]>();

/**
 * Lines that may steer the program, told by their text alone: a million other blocks need no tree to know that they do
 * not. A line may be named that does not steer; none that does is left out.
 */
export function flowLines(source: Source): readonly number[] {
  const known = kept.get(source);
  if (known) return known;
  const found: number[] = [];
  for (const { firstLine, fact } of steering.in(source))
    for (const local of fact) if (source.classOf(firstLine + local) === 2) found.push(firstLine + local);
  kept.set(source, found);
  return found;
}

/** Those of them that lie in half-open ranges of lines, which are in order. */
export function flowLinesIn(source: Source, ranges: readonly (readonly [number, number])[]): number[] {
  const all = flowLines(source);
  return ranges.flatMap(([from, to]) => all.slice(firstFrom(all, from), firstFrom(all, to)));
}

/** Lines of a chunk that may steer, counted in the chunk. */
const steering = new ChunkFacts<readonly number[]>((chunk, lines, dialect) => {
  const found = lines.filter((line) => maySteer(chunk.line(line), dialect));
  return found.length > 0 ? found : null;
});

function maySteer(text: string, dialect: Dialect): boolean {
  return (dialect.oWords ? mayBeOWord : mayBeMacroFlow).test(text) || mayCallOrEnd.test(text);
}

/** An O-word stands first, behind `/` and N at most. */
const mayBeOWord = /^[^A-Za-z(;#]*(?:n[\s\d./]*)?o|abort/i;
const mayBeMacroFlow = /o|d\s*o|i\s*f|e\s*n\s*d|w\s*h|#[\s0[]*3|#\s*\[/i;
/** G65, M2, M30, M98, M99, whatever blanks and zeros stand in them. */
const mayCallOrEnd = /m[\s0+]*[239]|g[\s0+]*6/i;

/** Index of the first line that is not before `line`. */
function firstFrom(lines: readonly number[], line: number): number {
  let low = 0;
  let high = lines.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((lines[middle] ?? 0) < line) low = middle + 1;
    else high = middle;
  }
  return low;
}
