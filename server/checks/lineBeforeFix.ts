import type { Touch } from '../analysis/model.ts';
import type { Source } from '../syntax/source.ts';
import { hasCode } from './blockFacts.ts';
import { isJumpTarget } from './freeNumbers.ts';
import { blocksBefore } from './lineEdits.ts';
import type { Fix } from './rule.ts';

/** A block put before the touch; none where a jump to the touch would pass it by, or the touch's own block undoes it. */
export function lineBeforeFix(touch: Touch, text: string, title: string, source: Source): Fix[] {
  const block = source.block(touch.line);
  const number = block.lineNumber?.value ?? null;
  if (block.lineNumber && (number === null || isJumpTarget(source, number))) return [];
  if (hasCode(block, ['M3', 'M4', 'G41', 'G42', 'G41.1', 'G42.1'])) return [];
  return [
    { title: `${title} (${text})`, edits: [blocksBefore(source, touch.line, [text])], changesMotion: true },
  ];
}
