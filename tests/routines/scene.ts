import type { Profile } from '../../server/profile/profile.ts';
import { paceOf } from '../../server/routines/pace.ts';
import { planOf } from '../../server/routines/plan.ts';
import type { Plan, Routine, Units } from '../../server/routines/routine.ts';
import { blockCorner, cylinder, halfSpace, nothing, type Part, plateWithHole } from './parts.ts';
import type { Inputs } from './randomInputs.ts';
import type { Point } from './testMachine.ts';

/** A part for a routine to measure, off its place, and what is true of it. mm, machine coordinates. */
export interface Scene {
  readonly part: Part;
  readonly truth: Readonly<Record<string, number>>;
  /** What the axes of the work offset are to call the feature. */
  readonly becomes: Readonly<Record<string, number>>;
  readonly sizes: Readonly<Record<string, number>>;
  readonly turned: number;
}

export const start: Point = [103.25, 207.5, -151.75];

export function sceneFor(
  routine: Routine,
  inputs: Inputs,
  profile: Profile,
  units: Units,
  random: () => number,
): Scene {
  const planned = planOf(routine, inputs, profile, units);
  if (!('plan' in planned)) throw new Error('refused inputs');
  const { plan } = planned;
  const off = (most: number) => (2 * random() - 1) * most;
  const top = start[2] - 0.5;
  switch (routine.name) {
    case 'surface':
      return surfaceScene(plan, off(0.8 * plan.amount('margin')));
    case 'bore': {
      const free = plan.amount('diameter') / 2 - plan.tipRadius - paceOf(profile, plan.probe).backOff;
      const most = 0.5 * Math.min(plan.amount('margin'), free);
      const [x, y] = [start[0] + off(most), start[1] + off(most)];
      const diameter = plan.amount('diameter') + off(0.05 * most);
      return roundScene(plan, plateWithHole(x, y, diameter, top), x, y, diameter);
    }
    case 'boss': {
      const most = 0.4 * Math.min(plan.amount('margin'), plan.amount('diameter') / 2);
      const [x, y] = [start[0] + off(most), start[1] + off(most)];
      const diameter = plan.amount('diameter') + off(0.1 * most);
      return roundScene(plan, cylinder(x, y, diameter, top), x, y, diameter);
    }
    default:
      return cornerScene(plan, off, top);
  }
}

export const emptyScene: Part = nothing;

function surfaceScene(plan: Plan, off: number): Scene {
  const direction = plan.choice('direction');
  const axis = 'XYZ'.indexOf(direction.slice(0, 1));
  const sign = direction.endsWith('+') ? 1 : -1;
  const radius = axis === 2 ? 0 : plan.tipRadius;
  const at = (start[axis] ?? 0) + sign * (plan.amount('distance') + radius + off);
  const normal = [0, 1, 2].map((i) => (i === axis ? -sign : 0)) as unknown as Point;
  const letter = direction.slice(0, 1);
  return {
    part: halfSpace(normal, -sign * at),
    truth: { [letter]: at },
    becomes: { [letter]: plan.amount('becomes') },
    sizes: {},
    turned: 0,
  };
}

function roundScene(plan: Plan, part: Part, x: number, y: number, diameter: number): Scene {
  const three = plan.choice('passes') === 'three';
  return {
    part,
    truth: { X: x, Y: y },
    becomes: { X: plan.amount('becomesX'), Y: plan.amount('becomesY') },
    sizes: three ? { diameterX: diameter, diameterY: diameter } : { diameterY: diameter },
    turned: 0,
  };
}

function cornerScene(plan: Plan, off: (most: number) => number, top: number): Scene {
  const corner = plan.choice('corner');
  const into = [corner.startsWith('left') ? 1 : -1, corner.endsWith('front') ? 1 : -1] as const;
  const margin = plan.amount('margin');
  const [x, y] = [start[0] + off(0.4 * margin), start[1] + off(0.4 * margin)];
  const reach = plan.amount('inset') + plan.amount('spacing') + margin;
  const most = Math.min(2, (Math.atan((0.4 * margin) / reach) * 180) / Math.PI);
  const turned = plan.choice('touches') === 'two' ? off(most) : 0;
  return {
    part: blockCorner([x, y], into, turned, top),
    truth: { X: x, Y: y },
    becomes: { X: plan.amount('becomesX'), Y: plan.amount('becomesY') },
    sizes: {},
    turned,
  };
}
