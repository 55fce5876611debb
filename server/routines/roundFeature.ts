import { type Middle, measureByChords } from './chords.ts';
import { measureByEvenTouches } from './evenTouches.ts';
import { absolute, type Expression, half, minus, plus } from './expression.ts';
import type { Motion } from './motion.ts';
import { type NominalPart, placeAlong } from './nominalPart.ts';
import type { Facts, Input, Plan, Result } from './routine.ts';
import {
  agreementInput,
  coordinateInput,
  depthInput,
  firstAngleInput,
  marginInput,
  workOffsetInput,
} from './sharedInputs.ts';
import type { Wall } from './walls.ts';

/** Inputs that a bore and a boss share; the diameter's least and usual value and the depth's help differ. */
export function roundFeatureInputs(own: {
  readonly usualDiameter: (facts: Facts) => number;
  readonly leastDiameter: (facts: Facts) => number;
  readonly depthHelp: string;
}): readonly Input[] {
  return [
    {
      name: 'diameter',
      title: 'Diameter',
      help: 'By the drawing.',
      type: 'length',
      default: own.usualDiameter,
      least: own.leastDiameter,
      greatest: ({ profile: { machine } }) =>
        Math.min(1000, machine.travel?.x ?? Infinity, machine.travel?.y ?? Infinity),
      required: true,
      argument: true,
    },
    depthInput(own.depthHelp),
    passesInput,
    touchesInput,
    firstAngleInput(
      'Of the first touch, counter-clockwise from X+; the others follow evenly. Turn it so that no touch meets a slot or a keyway.',
    ),
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
  help: 'The first pass runs beside the centre by as much as the start is off. The second goes through the improved centre: diameter and roundness need that. With four touches along the axes it repeats X alone, for Y went through the middle of X already.',
  type: 'choice',
  default: () => 'two',
  choices: [
    { value: 'two', title: 'two: again through the improved centre' },
    { value: 'one', title: 'one' },
  ],
  isEffort: true,
  required: false,
  argument: false,
};

const touchesInput: Input = {
  name: 'touches',
  title: 'Touches around',
  help: 'Four from X+ on are two chords, along X and along Y. Any other number goes around in even directions; three say nothing of the roundness, five or more see a three-lobed form.',
  type: 'count',
  default: () => 4,
  least: () => 3,
  greatest: () => 8,
  isEffort: true,
  required: false,
  argument: false,
};

export const roundFeatureResults: readonly Result[] = [
  { name: 'centreX', title: 'the centre in X', kind: 'coordinate' },
  { name: 'centreY', title: 'the centre in Y', kind: 'coordinate' },
  { name: 'meanDiameter', title: 'the mean diameter', kind: 'size' },
  { name: 'diameterX', title: 'the diameter along X', kind: 'size' },
  { name: 'diameterY', title: 'the diameter along Y', kind: 'size' },
  { name: 'roundness', title: 'the roundness, largest less smallest radius', kind: 'form' },
];

export interface RoundFeature {
  /** Touches a wall and ends where it may go to the other side. */
  readonly touchWall: (wall: Wall) => Expression;
  /** Where the ball touches: from inside a bore, from outside a boss. */
  readonly ball: 'inside' | 'outside';
}

/** Centre, diameters and roundness; the tip ends over or in the centre. */
export function measureRound(plan: Plan, motion: Motion, feature: RoundFeature): void {
  const found = isByChords(plan)
    ? measureAlongAxes(plan, motion, feature)
    : measureByEvenTouches(plan, motion, feature);
  if (feature.ball === 'inside') {
    motion.note('Up, in the middle.');
    motion.rise();
  }
  motion.write([
    { axis: 'x', measured: found.x, becomes: plan.input('becomesX') },
    { axis: 'y', measured: found.y, becomes: plan.input('becomesY') },
  ]);
}

function measureAlongAxes(plan: Plan, motion: Motion, feature: RoundFeature): Middle {
  const again = plan.choice('passes') === 'two';
  const { alongX, alongY, ...centre } = measureByChords(plan, motion, feature, again);
  if (again) {
    motion.set('meanDiameter', half(plus(alongX, alongY)), 'result');
    motion.set('roundness', half(absolute(minus(alongX, alongY))), 'result');
  }
  return centre;
}

/** The way of the ball's centre as a diameter of the wall. */
export function diameterOf(ball: RoundFeature['ball'], way: Expression, tip: Expression): Expression {
  return ball === 'inside' ? plus(way, tip) : minus(way, tip);
}

export function roundPlaces(plan: Plan): Pick<NominalPart, 'places' | 'results'> {
  const places = [placeAlong('x', 0, plan.amount('becomesX')), placeAlong('y', 0, plan.amount('becomesY'))];
  const diameter = plan.amount('diameter');
  if (plan.choice('passes') === 'one') return { places, results: {} };
  const roundness = plan.amount('touches') === 3 ? {} : { roundness: 0 };
  return { places, results: { meanDiameter: diameter, ...roundness } };
}

/** Chords along the axes: the touches are those of the axes, and no direction is rounded. */
function isByChords(plan: Plan): boolean {
  return plan.amount('touches') === 4 && plan.amount('firstAngle') % 90 === 0;
}
