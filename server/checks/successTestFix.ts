import type { Touch } from '../analysis/model.ts';
import { literal } from '../syntax/literal.ts';
import type { Block } from '../syntax/tree.ts';
import { wordsOf } from './blockFacts.ts';
import { freeLabel, freeLineNumber } from './freeNumbers.ts';
import { blocksAfter } from './lineEdits.ts';
import { modesLeftByAlarm } from './modesLeftByAlarm.ts';
import { knownUnit, lengthNumber } from './quantity.ts';
import type { CheckContext, Fix } from './rule.ts';

/**
 * A success test right behind the touch, whose failing side ends the program: nothing was touched, so there is nothing
 * to retract from. None where the block can be switched off, or where the text doesn't say what to compare with.
 */
export function successTestFix(touch: Touch, context: CheckContext): Fix | null {
  const { source } = context.analysis;
  if (source.block(touch.line).blockDelete) return null;
  const blocks = source.dialect.name === 'rs274ngc' ? flagTest(touch, context) : positionTest(touch, context);
  if (blocks === null) return null;
  return {
    title: 'Test for success after the touch, and stop where it failed',
    edits: [blocksAfter(source, touch.line, blocks)],
    changesMotion: true,
  };
}

function flagTest(touch: Touch, { analysis }: CheckContext): string[] {
  const label = `o${freeLabel(analysis.source)}`;
  const what = touch.away ? 'the probe did not let go' : 'no contact';
  return [`${label} if [#5070 EQ 0]`, `  (MSG, ${what})`, '  M2', `${label} endif`];
}

/** Stopped short of the target: it touched. The tolerance is far above any control's resolution. */
function positionTest(touch: Touch, { analysis }: CheckContext): string[] | null {
  const unit = knownUnit(touch.modes);
  const target = targetOf(touch, analysis.source.block(touch.line));
  if (unit === null || target === null || touch.away) return null;
  // An alarm in other modes than the program ends in is a fault of its own.
  if (modesLeftByAlarm(touch.modes, analysis).length > 0) return null;
  const tolerance = lengthNumber(unit === 'mm' ? 0.05 : 0.0508, unit, 'macro');
  const number = freeLineNumber(analysis.source);
  return [
    `IF[ABS[#${target.parameter}-[${target.text}]]GT${tolerance}]GOTO${number}`,
    '#3000=101(NO CONTACT)',
    `N${number}`,
  ];
}

/** The one axis of the touch, absolute, as the text has it. */
function targetOf(touch: Touch, block: Block): { parameter: number; text: string } | null {
  if (touch.modes.distance.length !== 1 || touch.modes.distance[0] !== 'G90') return null;
  const axes = wordsOf(block).filter(({ letter }) => 'XYZABC'.includes(letter));
  const [word] = axes;
  if (!word || axes.length !== 1) return null;
  const parameter = { X: 5061, Y: 5062, Z: 5063 }[word.letter];
  if (parameter === undefined) return null;
  const text = block.text.slice(word.value.start, word.value.end);
  return { parameter, text: literal(word.value) === null ? text : withPoint(text) };
}

function withPoint(text: string): string {
  return text.includes('.') ? text : `${text}.`;
}
