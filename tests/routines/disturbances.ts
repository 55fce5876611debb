import { paceOf } from '../../server/routines/pace.ts';
import type { Plan } from '../../server/routines/routine.ts';
import type { Point } from './testMachine.ts';

/** What is other about a part than its routine expects: mm and degrees about the start; inputs that are larger by so much. */
export interface Disturbance {
  readonly move: Point;
  readonly degrees: number;
  readonly larger: Readonly<Record<string, number>>;
  /** Degrees about X and Y by which an upper face leans. */
  readonly tilt: readonly [x: number, y: number];
}

/** A random number up to `most` either way. */
type Off = (most: number) => number;

/** How much each routine bears. */
export const disturbances: Readonly<Record<string, (plan: Plan, off: Off) => Partial<Disturbance>>> = {
  surface: (plan, off) => {
    const most = 0.55 * plan.amount('margin');
    return { move: [off(most), off(most), off(plan.choice('direction') === 'Z-' ? most : 0)] };
  },
  bore: (plan, off) => roundOff(0.5 * inside(plan, 'diameter'), off, 0.05),
  boss: (plan, off) => roundOff(0.4 * outside(plan, 'diameter'), off, 0.1),
  slot: (plan, off) => sideways(0.5 * inside(plan, 'width'), off, 'width'),
  web: (plan, off) => sideways(0.5 * outside(plan, 'width'), off, 'width'),
  'outside-corner': (plan, off) => {
    const most = 0.4 * plan.amount('margin');
    const reach = plan.amount('inset') + plan.amount('spacing') + plan.amount('margin');
    const degrees = Math.min(2, (Math.atan(most / reach) * 180) / Math.PI);
    return { move: [off(most), off(most), 0], degrees: plan.choice('touches') === 'two' ? off(degrees) : 0 };
  },
  'inside-corner': (plan, off) => {
    const most = 0.4 * freeWay(plan, plan.amount('inset'));
    const degrees = turnedAtMost(most, plan.amount('inset') + plan.amount('spacing'));
    return { move: [off(most), off(most), 0], degrees: plan.choice('touches') === 'two' ? off(degrees) : 0 };
  },
  'stepped-height': (plan, off) => {
    const most = 0.5 * plan.amount('margin');
    return { move: [off(most), off(most), off(most)], larger: { step: off(0.2 * most) } };
  },
  'rectangular-pocket': (plan, off) => {
    const [sizeX, sizeY] = [plan.amount('sizeX'), plan.amount('sizeY')];
    const most = 0.4 * Math.min(freeWay(plan, sizeX / 4), freeWay(plan, sizeY / 2));
    return rectangleOff(plan, off, most);
  },
  'rectangular-block': (plan, off) => rectangleOff(plan, off, 0.4 * plan.amount('margin')),
  'edge-angle': (plan, off) => {
    const most = 0.4 * plan.amount('margin');
    const reach = plan.amount('spacing') + plan.amount('distance');
    return { move: [off(most), off(most), off(0)], degrees: off(turnedAtMost(most, reach)) };
  },
  'plane-tilt': (plan, off) => {
    const most = 0.5 * plan.amount('margin');
    const spans = [plan.amount('spanX'), plan.amount('spanY')] as const;
    const tilted = turnedAtMost(most, spans[0] + spans[1]);
    return { move: [off(most), off(most), off(most)], tilt: [off(tilted), off(tilted)] };
  },
  'ring-calibration': (plan, off) => ({ ...aroundOff(plan, off), larger: {} }),
  'calibration-check': (plan, off) => ({ ...aroundOff(plan, off), larger: {} }),
  'reversal-centre': (plan, off) => aroundOff(plan, off),
  'rotary-centre': (plan, off) => aroundOff(plan, off),
  'rotary-axis': (plan, off) => {
    const most = 0.5 * outside(plan, 'width');
    const down = 0.5 * Math.min(plan.amount('margin'), 2);
    return { move: [off(0.7 * most), off(0.7 * most), off(down)], larger: { width: off(0.05 * most) } };
  },
  'level-face': (plan, off) => ({ move: [off(5), off(5), off(0.55 * plan.amount('margin'))] }),
  'tip-runout': (plan, off) => {
    const most = 0.55 * plan.amount('margin');
    return { move: [off(most), off(most), 0] };
  },
  'length-reference': (plan, off) => ({ move: [0, 0, off(0.55 * plan.amount('margin'))] }),
};

/** Degrees by which a part may be turned before something so far out moves by more than this. */
function turnedAtMost(most: number, reach: number): number {
  return Math.min(2, (Math.atan(most / reach) * 180) / Math.PI);
}

function rectangleOff(plan: Plan, off: Off, most: number): Partial<Disturbance> {
  const half = Math.hypot(plan.amount('sizeX'), plan.amount('sizeY')) / 2;
  return {
    move: [off(most), off(most), 0],
    degrees: off(turnedAtMost(most, half)),
    larger: { sizeX: off(0.2 * most), sizeY: off(0.2 * most) },
  };
}

/** How far a wall may be off its place towards a tip that stands so far from it, mm. */
function freeWay(plan: Plan, way: number): number {
  const free = way - plan.tipRadius - paceOf(plan.profile, plan.probe).backOff;
  return Math.min(plan.amount('margin'), free);
}

/** Of a round feature that is touched from inside or from outside. */
function aroundOff(plan: Plan, off: Off): Partial<Disturbance> {
  const isInside = ['ring', 'bore'].some((what) =>
    ['feature', 'reference'].some((name) => plan.choice(name) === what),
  );
  const most = isInside ? 0.5 * inside(plan, 'diameter') : 0.4 * outside(plan, 'diameter');
  return roundOff(most, off, 0.05);
}

function roundOff(most: number, off: Off, share: number): Partial<Disturbance> {
  return { move: [off(most), off(most), 0], larger: { diameter: off(share * most) } };
}

function sideways(most: number, off: Off, width: string): Partial<Disturbance> {
  return { move: [off(0.7 * most), off(0.7 * most), 0], larger: { [width]: off(0.05 * most) } };
}

function inside(plan: Plan, width: string): number {
  const free = plan.amount(width) / 2 - plan.tipRadius - paceOf(plan.profile, plan.probe).backOff;
  return Math.min(plan.amount('margin'), free);
}

function outside(plan: Plan, width: string): number {
  return Math.min(plan.amount('margin'), plan.amount(width) / 2);
}
