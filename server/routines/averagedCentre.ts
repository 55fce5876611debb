import { chord, type Middle } from './chords.ts';
import { number, over } from './expression.ts';
import { summed } from './manyValues.ts';
import { type Motion, start } from './motion.ts';
import type { RoundFeature } from './roundFeature.ts';
import type { Plan } from './routine.ts';

/**
 * The centre of a round feature found `count` times, the spindle or the table turned in between, and the mean of all. The
 * tip stands over the start in between and at the end.
 */
export function averagedCentre(
  plan: Plan,
  motion: Motion,
  feature: RoundFeature,
  count: number,
  turnTo: (index: number) => void,
): { readonly mean: Middle; readonly centres: readonly Middle[] } {
  const centres = Array.from({ length: count }, (_, index): Middle => {
    turnTo(index);
    if (feature.ball === 'inside') {
      motion.note('Down into it, ready to stop.');
      motion.down(plan.input('depth'));
    }
    const x = chord(plan, motion, feature, 'x', start.x, `x${index + 1}`).middle;
    const y = chord(plan, motion, feature, 'y', start.y, `y${index + 1}`).middle;
    motion.note('Up, and back over the start.');
    motion.rise();
    motion.goTo(start);
    return { x, y };
  });
  const meanOf = (axis: 'x' | 'y') => {
    const name = `centre${axis.toUpperCase()}`;
    const sum = summed(
      motion,
      'sum',
      centres.map((centre) => centre[axis]),
    );
    return motion.set(name, over(sum, number(count)), 'result: the mean');
  };
  return { mean: { x: meanOf('x'), y: meanOf('y') }, centres };
}
