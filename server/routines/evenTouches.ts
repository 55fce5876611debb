import { type Ray, sharesOf } from './along.ts';
import type { Middle } from './chords.ts';
import { type Expression, half, length, minus, number, over, plus, scaled } from './expression.ts';
import { largestOf, smallestOf, summed } from './manyValues.ts';
import { type Motion, start } from './motion.ts';
import { diameterOf, type RoundFeature } from './roundFeature.ts';
import type { Plan } from './routine.ts';

/** A touch on its ray: how far from where the rays begin the ball's centre got. */
export interface Reach {
  readonly ray: Ray;
  readonly way: Expression;
}

/**
 * Centre, diameter and roundness from n touches in even directions u_i whose ways are d_i. The centre lies
 * (2/n)·Σ d_i·u_i from where the rays begin: exact for an even number wherever they begin, for then each pair is a chord;
 * for an odd one once they begin in the centre, so that a first pass solves the circle itself.
 */
export function measureByEvenTouches(plan: Plan, motion: Motion, feature: RoundFeature): Middle {
  const again = plan.choice('passes') === 'two';
  const isEven = plan.amount('touches') % 2 === 0;
  const first = touchAround(plan, motion, feature, start);
  const found = centreBy(motion, isEven ? first : onCircle(motion, first), start, again ? 'rough' : 'centre');
  if (!again) {
    motion.goTo(found);
    return found;
  }
  if (feature.ball === 'inside') motion.goTo(found);
  motion.note('Again, now through the centre that was found.');
  const second = touchAround(plan, motion, feature, found);
  const centre = centreBy(motion, second, found, 'centre');
  motion.goTo(centre);
  sizeOf(motion, feature, second, { x: minus(centre.x, found.x), y: minus(centre.y, found.y) });
  return centre;
}

/** All touches, each on its ray; the tip ends where the rays begin. */
export function touchAround(
  plan: Plan,
  motion: Motion,
  feature: RoundFeature,
  base: Middle,
  name = 'way',
): readonly Reach[] {
  const count = plan.amount('touches');
  const reaches = Array.from({ length: count }, (_, i): Reach => {
    const ray = { base, degrees: plan.amount('firstAngle') + (360 / count) * i };
    const wall = { along: ray, middle: length(0), side: 1, width: plan.input('diameter') } as const;
    return { ray, way: feature.touchWall({ ...wall, into: `${name}${i + 1}` }) };
  });
  const last = reaches.at(-1);
  if (feature.ball === 'outside' && last !== undefined) motion.guard(last.ray, length(0));
  return reaches;
}

function centreBy(motion: Motion, reaches: readonly Reach[], base: Middle, name: 'rough' | 'centre'): Middle {
  motion.note('The centre: the ways, each in its direction, summed and shared out.');
  const along = (axis: 'x' | 'y') => {
    const shares = reaches.map(({ ray, way }) => scaled(way, shareOf(ray, axis)));
    const shift = over(summed(motion, 'sum', shares), number(reaches.length / 2));
    return motion.set(`${name}${axis.toUpperCase()}`, plus(base[axis], shift), `centre in ${axis}`);
  };
  return { x: along('x'), y: along('y') };
}

/**
 * The ways as they would be by the sums. On a circle d_i − 2·c·u_i = C/d_i, C being the square of its radius less that of
 * the centre's distance; summed over even directions, C = Σ d_i / Σ 1/d_i.
 */
function onCircle(motion: Motion, reaches: readonly Reach[]): readonly Reach[] {
  motion.note(
    'An odd number of ways makes no chords: this takes from each way what comes of the circle alone.',
  );
  const sum = summed(
    motion,
    'sum',
    reaches.map(({ way }) => way),
  );
  const inverses = summed(
    motion,
    'inverses',
    reaches.map(({ way }) => over(number(1), way)),
  );
  const power = motion.set('power', over(sum, inverses), 'way times way');
  return reaches.map(({ ray, way }, i) => ({
    ray,
    way: motion.set(`pure${i + 1}`, half(minus(way, over(power, way)))),
  }));
}

/** Diameter and roundness about the centre, which lies `off` where the rays begin. */
function sizeOf(motion: Motion, feature: RoundFeature, reaches: readonly Reach[], off: Middle): void {
  motion.note('The diameter takes the effective tip diameter; in the centre it cancels.');
  const count = reaches.length;
  const sum = summed(
    motion,
    'sum',
    reaches.map(({ way }) => way),
  );
  motion.set('meanDiameter', diameterOf(feature.ball, over(sum, number(count / 2)), motion.tip()), 'result');
  if (count === 3) return;
  motion.note('Radii about the centre: the largest less the smallest.');
  const offX = motion.set('offX', off.x);
  const offY = motion.set('offY', off.y);
  const radii = reaches.map(({ ray, way }, i) => {
    const x = scaled(offX, shareOf(ray, 'x'));
    const y = scaled(offY, shareOf(ray, 'y'));
    return motion.set(`radius${i + 1}`, minus(minus(way, x), y));
  });
  motion.set('roundness', minus(largestOf(motion, radii), smallestOf(motion, radii)), 'result');
}

export function shareOf(ray: Ray, axis: 'x' | 'y'): number {
  return sharesOf(ray).find((each) => each.axis === axis)?.share ?? 0;
}
