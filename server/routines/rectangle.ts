import {
  angleOf,
  type Expression,
  half,
  minus,
  number,
  over,
  plus,
  squareRoot,
  times,
} from './expression.ts';
import { type Motion, start } from './motion.ts';
import { type NominalPart, placeAlong } from './nominalPart.ts';
import type { Facts, Input, Plan, Result } from './routine.ts';
import { agreementInput, coordinateInput, depthInput, marginInput, workOffsetInput } from './sharedInputs.ts';

/** mm. */
interface Bounds {
  readonly usual: (facts: Facts) => number;
  readonly least: (facts: Facts) => number;
}

/** Inputs that a pocket and a block share. */
export function rectangleInputs(own: {
  readonly x: Bounds;
  readonly y: Bounds;
  readonly depthHelp: string;
}): readonly Input[] {
  const size = (axis: 'X' | 'Y', { usual, least }: Bounds): Input => ({
    name: `size${axis}`,
    title: `Size in ${axis}`,
    help: `From wall to wall along ${axis}, by the drawing.`,
    type: 'length',
    default: usual,
    least,
    greatest: ({ profile: { machine } }) =>
      Math.min(1000, machine.travel?.[axis === 'X' ? 'x' : 'y'] ?? Infinity),
    required: true,
    argument: true,
  });
  return [
    size('X', own.x),
    size('Y', own.y),
    depthInput(own.depthHelp),
    coordinateInput('becomesX', 'X of the centre'),
    coordinateInput('becomesY', 'Y of the centre'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ];
}

export const rectangleResults: readonly Result[] = [
  { name: 'centreX', title: 'the centre in X', kind: 'coordinate' },
  { name: 'centreY', title: 'the centre in Y', kind: 'coordinate' },
  { name: 'measuredX', title: 'the size in X', kind: 'size' },
  { name: 'measuredY', title: 'the size in Y', kind: 'size' },
  { name: 'turned', title: 'the angle', kind: 'angle' },
];

/** Where the ball's centre met the walls: the two across X in the middle, the two across Y a quarter of the size to either side of it. */
export interface RectangleTouches {
  readonly left: Expression;
  readonly right: Expression;
  readonly frontLeft: Expression;
  readonly frontRight: Expression;
  readonly backLeft: Expression;
  readonly backRight: Expression;
}

/** How far to either side of the middle the walls across Y are touched. */
export function quarter(plan: Plan): Expression {
  return over(plan.input('sizeX'), number(4));
}

/**
 * Centre, sizes and angle of a rectangle, exact for one that stands turned by a. With t = tan a the walls across Y run as
 * y = y0 + t·x, those across X as x = x0 − t·y; p and q being the middles between opposite walls as seen from the start,
 * the centre lies at (p − t·q, q + t·p)/(1 + t²) and a size is the way between the touches over √(1 + t²).
 */
export function measureRectangle(
  plan: Plan,
  motion: Motion,
  ball: 'inside' | 'outside',
  { left, right, frontLeft, frontRight, backLeft, backRight }: RectangleTouches,
): void {
  motion.note('The angle, by both walls across Y; then the middles between the walls, seen from the start.');
  const rises = plus(minus(frontRight, frontLeft), minus(backRight, backLeft));
  const slope = motion.set('slope', over(rises, plan.input('sizeX')), 'slope of the walls');
  const stretch = motion.set('stretch', plus(number(1), times(slope, slope)));
  const front = motion.set('front', half(plus(frontLeft, frontRight)), 'middle of the front wall');
  const back = motion.set('back', half(plus(backLeft, backRight)), 'middle of the back wall');
  const aside = motion.set('aside', minus(half(plus(left, right)), start.x), 'from the start in X');
  const beyond = motion.set('beyond', minus(half(plus(front, back)), start.y), 'from the start in Y');
  const shiftX = over(minus(aside, times(slope, beyond)), stretch);
  const shiftY = over(plus(beyond, times(slope, aside)), stretch);
  const x = motion.set('centreX', plus(start.x, shiftX), 'result');
  const y = motion.set('centreY', plus(start.y, shiftY), 'result');
  motion.note('The sizes take the effective tip diameter; in the centre it cancels.');
  const tip = motion.tip();
  const longer = motion.set('longer', squareRoot(stretch), 'along the slope');
  const size = ball === 'inside' ? plus : minus;
  motion.set('measuredX', size(over(minus(right, left), longer), tip), 'result');
  motion.set('measuredY', size(over(minus(back, front), longer), tip), 'result');
  motion.set('turned', angleOf(slope), 'result: degrees, counter-clockwise');
  motion.note('Over the centre.');
  motion.goTo({ x, y });
  motion.write([
    { axis: 'x', measured: x, becomes: plan.input('becomesX') },
    { axis: 'y', measured: y, becomes: plan.input('becomesY') },
  ]);
}

export function rectanglePlaces(plan: Plan): Omit<NominalPart, 'solids'> {
  return {
    reach: Math.hypot(plan.amount('sizeX'), plan.amount('sizeY')) / 2,
    places: [placeAlong('x', 0, plan.amount('becomesX')), placeAlong('y', 0, plan.amount('becomesY'))],
    results: { measuredX: plan.amount('sizeX'), measuredY: plan.amount('sizeY'), turned: 0 },
  };
}
