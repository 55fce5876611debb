import type { Touch } from '../analysis/model.ts';
import { literal } from '../syntax/literal.ts';
import { wordsOf } from './blockFacts.ts';
import { setWord } from './lineEdits.ts';
import { feedText, feedWord, knownUnit } from './quantity.ts';
import type { CheckContext, Fix } from './rule.ts';

/** Puts a feed (mm/min) into the touch's own block; none where the unit is not certain or the block computes its F. */
export function feedFix(touch: Touch, feed: number, { analysis }: CheckContext): Fix[] {
  const unit = knownUnit(touch.modes);
  const perMinute = touch.modes.feedMode.every((mode) => mode !== 'G93' && mode !== 'G95');
  const block = analysis.source.block(touch.line);
  const own = wordsOf(block).find(({ letter }) => letter === 'F');
  if (unit === null || !perMinute || (own && literal(own.value) === null)) return [];
  const word = feedWord(feed, unit, analysis.source.dialect.name);
  return [
    {
      title: `Touch at ${feedText(feed, unit)} (${word}, which stays in force after it)`,
      edits: [setWord(block, touch.line, word)],
      changesMotion: true,
    },
  ];
}
