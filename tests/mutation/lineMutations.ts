import { codesOf, endOfIf, flowOf, isPlainMove, isTouch, type Lines, looksAtTouch } from './lines.ts';
import type { LineEdit } from './mutations.ts';

/** Whole blocks that somebody left out, or put in the wrong order. */
export function* lineMutations(lines: Lines): Iterable<LineEdit> {
  for (const [line, block] of lines.blocks.entries()) {
    const drop = (kind: string, to = line + 1): LineEdit => ({ kind, from: line, to, lines: [] });
    const touch = touchBefore(lines, line);
    if (isPlainMove(block) && touch !== null) yield drop('retract dropped');
    if (codesOf(block).some((code) => /^M(2|30)$/.test(code)) && isInIf(lines, line))
      yield drop('stop dropped');
    const end = endOfIf(lines, line);
    if (end === null || !looksAtTouch(block)) continue;
    const isOnly = touch === null || testsBehind(lines, touch) === 1;
    yield drop(isOnly ? 'success test dropped' : 'one of two tests dropped', end + 1);
    if (touch !== null) yield beforeTouch(lines, touch, line, end, isOnly);
  }
}

/** The test moved to before the touch that it looks at. */
function beforeTouch({ texts }: Lines, touch: number, line: number, end: number, isOnly: boolean): LineEdit {
  const moved = [...texts.slice(line, end + 1), ...texts.slice(touch, line)];
  const kind = isOnly ? 'test before the touch' : 'one of two tests before the touch';
  return { kind, from: touch, to: end + 1, lines: moved };
}

/** The line of a touch behind which nothing moves before this line: what tests it and what keeps its result may stand between. */
function touchBefore({ blocks }: Lines, line: number): number | null {
  let depth = 0;
  for (let at = line - 1; at >= 0; at--) {
    const block = blocks[at];
    if (!block) return null;
    const keyword = flowOf(block, 'o-word')?.keyword;
    if (keyword === 'endif') depth++;
    if (keyword === 'if' && depth > 0) depth--;
    else if (depth > 0 || keyword === 'if') continue;
    if (isTouch(block)) return at;
    if (isPlainMove(block) || keyword === 'sub' || keyword === 'call' || codesOf(block).includes('M99'))
      return null;
  }
  return null;
}

/** Tests of a touch before anything moves on. */
function testsBehind(lines: Lines, touch: number): number {
  let count = 0;
  for (let line = touch + 1; line < lines.blocks.length; line++) {
    const block = lines.blocks[line];
    if (!block || isTouch(block) || isPlainMove(block)) break;
    const end = endOfIf(lines, line);
    if (end === null) continue;
    if (looksAtTouch(block)) count++;
    line = end;
  }
  return count;
}

function isInIf({ blocks }: Lines, line: number): boolean {
  const keywords = blocks.slice(0, line).map((block) => flowOf(block, 'o-word')?.keyword);
  return keywords.filter((word) => word === 'if').length > keywords.filter((word) => word === 'endif').length;
}
