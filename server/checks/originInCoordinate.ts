import type { Datum } from '../analysis/model.ts';
import type { Source } from '../syntax/source.ts';
import type { Expression } from '../syntax/tree.ts';
import { formOfG10, wordsOf } from './blockFacts.ts';
import { axisOf } from './compensation.ts';

/**
 * G10 L20 of a sum to which an origin of the same axis is added: the control takes the new origin for where the axis stands
 * less this value, so that the origin falls out, and what is left is a distance. null where the block is none of that.
 */
export function originInCoordinate(datum: Datum, source: Source): string | null {
  // In the macro family G10 L20 is G10 L2 of the further offsets G54.1 P… (common practice, no source).
  if (datum.file !== null || source.dialect.name === 'macro') return null;
  const block = source.block(datum.place.line);
  const word = wordsOf(block).find(({ start }) => start === datum.place.start);
  if (!word || formOfG10(block) !== 20) return null;
  const axis = 'XYZ'.indexOf(axisOf(datum));
  const origin = [...addends(word.value)].find((number) => isOriginOf(axis, number));
  if (origin === undefined) return null;
  return `G10 L20 wants what the axis is to read where it stands, and this adds the origin #${origin} to it: the origin falls out, and ${datum.target} comes out wrong by it. G10 L2 takes an origin and a coordinate together.`;
}

/** Numbers of the parameters that are added, not subtracted, in a sum. */
function* addends(value: Expression): Iterable<number> {
  if (value.kind === 'parameter' && 'number' in value.index) yield value.index.number;
  if (value.kind !== 'binary' || (value.operator !== '+' && value.operator !== '-')) return;
  yield* addends(value.left);
  if (value.operator === '+') yield* addends(value.right);
}

/** #5221 to #5383: three of each work offset. */
function isOriginOf(axis: number, number: number): boolean {
  return axis >= 0 && number >= 5221 && number <= 5386 && (number - 5221) % 20 === axis;
}
