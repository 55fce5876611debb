import type { Chunk } from '../syntax/chunk.ts';
import type { Dialect } from '../syntax/dialect.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Source } from '../syntax/source.ts';

interface Labels {
  readonly dialect: Dialect;
  /** N numbers of the chunk, and the lines that have them, counted in the chunk. */
  readonly numbers: readonly number[];
  readonly lines: readonly number[];
}

const known = new WeakMap<Chunk, Labels>();

/**
 * N label → line, within half-open ranges of lines; the first of a number counts, as a search from the top finds it. Of a
 * million labels only those are listed that `wanted` names; null: all.
 */
export function lineLabels(
  source: Source,
  ranges: readonly (readonly [number, number])[],
  wanted: ReadonlySet<number> | null,
): Map<number, number> {
  const labels = new Map<number, number>();
  for (const [number, line] of labelsIn(source, ranges, wanted))
    if (!labels.has(number)) labels.set(number, line);
  return labels;
}

/** The same with all lines of each number, in order. */
export function labelLines(
  source: Source,
  ranges: readonly (readonly [number, number])[],
  wanted: ReadonlySet<number>,
): Map<number, readonly number[]> {
  const labels = new Map<number, number[]>();
  for (const [number, line] of labelsIn(source, ranges, wanted)) {
    const known = labels.get(number);
    if (known) known.push(line);
    else labels.set(number, [line]);
  }
  return labels;
}

function* labelsIn(
  source: Source,
  ranges: readonly (readonly [number, number])[],
  wanted: ReadonlySet<number> | null,
): Iterable<readonly [number: number, line: number]> {
  for (const [from, to] of ranges) {
    for (let line = from; line < to; ) {
      const held = source.chunkAt(line);
      if (!held) break;
      const { numbers, lines } = labelsOf(held.chunk, source.dialect);
      for (let i = 0; i < numbers.length; i++) {
        const [number, at] = [numbers[i] as number, held.firstLine + (lines[i] as number)];
        if (at < line || at >= to || (wanted !== null && !wanted.has(number))) continue;
        if (source.classOf(at) !== 0) yield [number, at];
      }
      line = held.firstLine + held.chunk.lineCount;
    }
  }
}

function labelsOf(chunk: Chunk, dialect: Dialect): Labels {
  const before = known.get(chunk);
  if (before?.dialect === dialect) return before;
  const labels = { dialect, numbers: [] as number[], lines: [] as number[] };
  for (let line = 0; line < chunk.lineCount; line++) {
    const text = chunk.line(line);
    const value = /n/i.test(text) ? parseBlock(text, dialect).lineNumber?.value : null;
    if (value === null || value === undefined) continue;
    labels.numbers.push(value);
    labels.lines.push(line);
  }
  known.set(chunk, labels);
  return labels;
}
