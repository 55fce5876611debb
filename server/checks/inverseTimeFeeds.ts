import { codesInForce } from '../analysis/modesAbove.ts';
import { ChunkFacts } from '../syntax/chunkFacts.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Source } from '../syntax/source.ts';

/** Lines that are followed from one G93. */
const mostLines = 20_000;

const axisWord = /[xyzabcuvw][\s]*[-+\d.#[]/i;

/** For each G93 the first feed move behind it that has no F of its own, as far as the text runs straight on. */
export function* movesWithoutTime(
  source: Source,
): Iterable<{ readonly line: number; readonly code: string }> {
  for (const { firstLine, fact } of inverseTimeLines.in(source))
    for (const local of fact) {
      const line = firstLine + local;
      if (source.classOf(line) === 2) yield* firstWithoutTime(source, line);
    }
}

function* firstWithoutTime(source: Source, from: number) {
  let motion: string | null = null;
  for (let line = from; line < Math.min(source.lineCount, from + mostLines); line++) {
    const kind = source.classOf(line);
    if (kind === 0) continue;
    const text = source.text.line(line);
    if (kind === 1 && /f/i.test(text) && !/g/i.test(text)) continue;
    const block = source.block(line);
    const inForce = codesInForce(block, source.dialect.name);
    if (inForce === null || block.items.some((item) => item.kind === 'flow')) return;
    if (line > from && inForce.feedMode !== undefined) return;
    motion = inForce.motion ?? motion;
    const has = (letter: string) => block.items.some((i) => i.kind === 'word' && i.letter === letter);
    // A block with another code may use the axis words for itself; one of the block's own is checked without this.
    const isPlainMove = kind === 1 && axisWord.test(text);
    if (!isPlainMove || motion === null || !/^G[123]$/.test(motion) || has('F')) continue;
    yield { line, code: motion };
    return;
  }
}

const inverseTimeLines = new ChunkFacts<readonly number[]>((chunk, lines, dialect) => {
  const found = lines.filter((line) => {
    const text = chunk.line(line);
    if (!/g[\s0]*9[\s]*3/i.test(text)) return false;
    return codesInForce(parseBlock(text, dialect), dialect.name)?.feedMode === 'G93';
  });
  return found.length > 0 ? found : null;
});
