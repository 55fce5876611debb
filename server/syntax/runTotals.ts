import type { Chunk } from './chunk.ts';
import { LineScanner } from './lineScanner.ts';
import { PlainTotals } from './plainTotals.ts';
import type { ProgramLines } from './programLines.ts';
import { textBytes } from './textBytes.ts';

/**
 * What the lines from `from` on leave behind, up to `to` or the first that is neither plain nor blank; `end` is the line
 * behind them. Chunks that the run goes through whole are not read again, so at most two are. `feedLine` counts from
 * line 0 of the text.
 */
export function runTotals(
  lines: ProgramLines,
  from: number,
  to: number,
): { readonly totals: PlainTotals; readonly end: number } {
  const totals = new PlainTotals();
  let line = from;
  while (line < to) {
    const held = lines.chunkAt(line);
    if (!held) break;
    const { chunk, firstLine } = held;
    const start = line - firstLine;
    const last = Math.min(to, held.end) - firstLine;
    const whole = start === 0 && last === chunk.lineCount ? chunk.totals : null;
    const stop = whole ? last : plainEnd(chunk, start, last);
    if (stop <= start) break;
    totals.add(whole ?? part(chunk, start, stop), line);
    line = firstLine + stop;
    if (stop < chunk.lineCount) break;
  }
  return { totals, end: line };
}

function plainEnd(chunk: Chunk, from: number, to: number): number {
  let line = from;
  while (line < to && chunk.isPlain(line)) line++;
  return line;
}

const scanner = new LineScanner();

/** Of some lines of a chunk, all of them plain or blank. */
function part(chunk: Chunk, from: number, to: number): PlainTotals {
  const start = chunk.lineStart(from);
  const bytes = textBytes(chunk.text.slice(start, chunk.lineStart(to)));
  scanner.clear();
  for (let line = from; line < to; line++) scanner.scan(bytes, chunk.lineStart(line) - start, line - from);
  return scanner.totals;
}
