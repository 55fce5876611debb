import { ChunkFacts } from '../syntax/chunkFacts.ts';
import type { Dialect } from '../syntax/dialect.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';
import { linesWithin } from './linesWithin.ts';
import { toEnd } from './toEnd.ts';

/** A line that may steer the program. Its tree stays with the text, so that an edit parses the touched lines only. */
export interface FlowLine {
  readonly line: number;
  readonly block: Block;
}

const kept = new WeakMap<Source, readonly FlowLine[]>();

/**
 * Lines that may steer the program, told by their text alone: a million other blocks need no tree to know that they do
 * not. A line may be named that does not steer; none that does is left out.
 */
export function flowLines(source: Source): readonly FlowLine[] {
  return toEnd(flowLinesInPieces(source));
}

/** As `flowLines`; yields where it may pause. */
export function* flowLinesInPieces(source: Source): Generator<void, readonly FlowLine[]> {
  const known = kept.get(source);
  if (known) return known;
  const found: FlowLine[] = [];
  for (const { firstLine, fact } of steering.in(source)) {
    for (const { line: local, block } of fact) {
      const line = firstLine + local;
      if (source.classOf(line) === 2) found.push({ line, block });
    }
    yield;
  }
  kept.set(source, found);
  return found;
}

/** Those of them that lie in half-open ranges of lines, which are in order. */
export function flowLinesIn(source: Source, ranges: readonly (readonly [number, number])[]): FlowLine[] {
  return linesWithin(flowLines(source), ranges);
}

/** Lines of a chunk that may steer, counted in the chunk. */
const steering = new ChunkFacts<readonly FlowLine[]>((chunk, lines, dialect) => {
  const found = lines.flatMap((line) => {
    const text = chunk.line(line);
    return maySteer(text, dialect) ? [{ line, block: parseBlock(text, dialect) }] : [];
  });
  return found.length > 0 ? found : null;
});

function maySteer(text: string, dialect: Dialect): boolean {
  return (dialect.oWords ? mayBeOWord : mayBeMacroFlow).test(text) || mayCallOrEnd.test(text);
}

/** An O-word stands first, behind `/` and N at most. */
const mayBeOWord = /^[^A-Za-z(;#]*(?:n[\s\d./]*)?o|abort/i;
const mayBeMacroFlow = /o|d\s*o|i\s*f|e\s*n\s*d|w\s*h|#[\s0[]*3|#\s*\[/i;
/** G65, G66, M2, M30, M98, M99, whatever blanks and zeros stand in them. */
const mayCallOrEnd = /m[\s0+]*[239]|g[\s0+]*6/i;
