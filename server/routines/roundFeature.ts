import { type Expression, half, length, minus, plus, shifted } from './expression.ts';
import { type Motion, start } from './motion.ts';
import type { Facts, Input, Plan, Result } from './routine.ts';
import { agreementInput, coordinateInput, depthInput, marginInput, workOffsetInput } from './sharedInputs.ts';

/** Inputs that a bore and a boss share; the diameter's least and usual value and the depth's help differ. */
export function roundFeatureInputs(own: {
  readonly usualDiameter: number;
  readonly leastDiameter: (facts: Facts) => number;
  readonly depthHelp: string;
}): readonly Input[] {
  return [
    {
      name: 'diameter',
      title: 'Diameter',
      help: 'By the drawing.',
      type: 'length',
      default: (facts) => Math.max(own.usualDiameter, Math.ceil(1.5 * own.leastDiameter(facts))),
      least: own.leastDiameter,
      greatest: ({ profile: { machine } }) =>
        Math.min(1000, machine.travel?.x ?? Infinity, machine.travel?.y ?? Infinity),
      required: true,
      argument: true,
    },
    depthInput(own.depthHelp),
    passesInput,
    coordinateInput('becomesX', 'X of the centre'),
    coordinateInput('becomesY', 'Y of the centre'),
    workOffsetInput,
    marginInput,
    agreementInput,
  ];
}

const passesInput: Input = {
  name: 'passes',
  title: 'Passes',
  help: 'The first pass along X runs beside the centre by as much as the start is off. A third pass, along X again, goes right through it: the diameter along X needs that.',
  type: 'choice',
  default: () => 'three',
  choices: [
    { value: 'three', title: 'X, Y and X again' },
    { value: 'two', title: 'X and Y' },
  ],
  required: false,
  argument: false,
};

export const roundFeatureResults: readonly Result[] = [
  { name: 'centreX', title: 'the centre in X', kind: 'coordinate' },
  { name: 'centreY', title: 'the centre in Y', kind: 'coordinate' },
  { name: 'diameterX', title: 'the diameter along X', kind: 'size' },
  { name: 'diameterY', title: 'the diameter along Y', kind: 'size' },
];

/** Touches the wall on one side of `from` and ends where it may go to the other side. */
export type TouchWall = (axis: 'x' | 'y', side: 1 | -1, from: Expression, into: string) => Expression;

export interface Passes {
  readonly touchWall: TouchWall;
  /** Goes to the middle of the two walls just touched. */
  readonly goToMiddle: (axis: 'x' | 'y', middle: Expression) => void;
  /** Where the ball touches: from inside a bore, from outside a boss. */
  readonly ball: 'inside' | 'outside';
}

interface Chord {
  readonly middle: Expression;
  readonly width: Expression;
}

/**
 * Centre and diameters from chords along X, Y and X again, each through the middle of the one before (NISTIR 6556,
 * Table 6, finds a hole like this). Gives the centre.
 */
export function measureRound(
  plan: Plan,
  motion: Motion,
  passes: Passes,
): { readonly x: Expression; readonly y: Expression } {
  const three = plan.choice('passes') === 'three';
  motion.note('Along X: a chord beside the centre has its middle at the centre in X all the same.');
  let x = chord(motion, passes, 'x', start.x, three ? 'roughX' : 'centreX');
  motion.note('Along Y, through that middle.');
  const y = chord(motion, passes, 'y', start.y, 'centreY');
  if (three) {
    motion.note('Along X again, now through the centre.');
    x = chord(motion, passes, 'x', x.middle, 'centreX');
  }
  motion.note('The diameters take the effective tip diameter; in the centre it cancels.');
  const tip = motion.tip();
  const size = passes.ball === 'inside' ? plus : minus;
  motion.set('diameterX', size(x.width, tip), 'result');
  motion.set('diameterY', size(y.width, tip), 'result');
  return { x: x.middle, y: y.middle };
}

function chord(
  motion: Motion,
  { touchWall, goToMiddle }: Passes,
  axis: 'x' | 'y',
  from: Expression,
  middleName: string,
): Chord {
  const lower = touchWall(axis, -1, from, `${middleName}Minus`);
  const upper = touchWall(axis, 1, from, `${middleName}Plus`);
  const middle = motion.set(middleName, half(plus(lower, upper)), 'half-way');
  goToMiddle(axis, middle);
  return { middle, width: minus(upper, lower) };
}

/** Centre of the ball where it touches the wall on this side: a tip radius short of it in a bore, beyond it at a boss. */
export function ballAtWall(
  plan: Plan,
  centre: Expression,
  side: 1 | -1,
  ball: 'inside' | 'outside',
): Expression {
  const wall = shifted(centre, side, half(plan.input('diameter')));
  return shifted(wall, side, length(ball === 'inside' ? -plan.tipRadius : plan.tipRadius));
}

/** The centre gets its coordinates. */
export function writeCentre(plan: Plan, motion: Motion, centre: { x: Expression; y: Expression }): void {
  motion.write([
    { axis: 'x', measured: centre.x, becomes: plan.input('becomesX') },
    { axis: 'y', measured: centre.y, becomes: plan.input('becomesY') },
  ]);
}
