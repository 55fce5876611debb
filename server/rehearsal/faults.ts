import type { Setup } from '../part/setup.ts';
import { shifted, turned } from '../part/solid.ts';
import type { Disturbance } from './disturbance.ts';

/** What can go wrong. */
export const faultNames = [
  'part-absent',
  'part-shifted',
  'part-turned',
  'probe-dead',
  'probe-tripped',
  'false-trip',
  'probe-stuck',
  'start-shifted',
  'feed-doubled',
  'wrong-tool',
] as const;

export type FaultName = (typeof faultNames)[number];

/** One fault in one of its forms; two of them joined are one too. */
export interface Fault {
  /** Two names joined by + where it is two faults at once. */
  readonly name: string;
  /** `+x`, `-5 mm`; '' where there is only one form. */
  readonly detail: string;
  /** The touch that it happens at, from 1. */
  readonly touch: number | null;
  /** The touches that trip half-way, from 1. */
  readonly falseTrips: readonly number[];
  readonly change: (disturbance: Disturbance) => Disturbance;
  /** Where a place of the part goes, one move after the other. */
  readonly moves: readonly PartMove[];
  /** The part is not there: whatever is written is wrong. */
  readonly partAbsent: boolean;
}

export type PartMove =
  | { readonly kind: 'shift'; readonly by: readonly [number, number, number] }
  | {
      readonly kind: 'turn';
      readonly centre: { readonly x: number; readonly y: number };
      readonly degrees: number;
    };

export function undisturbed(setup: Setup): Disturbance {
  return {
    solids: setup.solids,
    start: setup.start,
    lengthError: 0,
    override: 1,
    deadProbe: false,
    trippedBefore: [],
    falseTrip: [],
    stuckAfter: [],
  };
}

/** Every fault that the setup allows, `touches` being how many the undisturbed run makes. */
export function faultsFor(setup: Setup, touches: number): Fault[] {
  return faultNames.flatMap((name) => forms[name](setup, touches));
}

/** Each form of the first with each of the second; of one fault, each two of its forms once. */
export function joined(first: readonly Fault[], second: readonly Fault[]): Fault[] {
  return first.flatMap((a, index) =>
    (first[0]?.name === second[0]?.name ? second.slice(index + 1) : second).map(
      (b): Fault => ({
        name: `${a.name}+${b.name}`,
        detail: [a, b]
          .map(({ detail, touch }) => detail || (touch === null ? '' : `touch ${touch}`))
          .join(', '),
        touch: a.touch ?? b.touch,
        falseTrips: [...a.falseTrips, ...b.falseTrips],
        change: (disturbance) => b.change(a.change(disturbance)),
        moves: [...a.moves, ...b.moves],
        partAbsent: a.partAbsent || b.partAbsent,
      }),
    ),
  );
}

type Forms = (setup: Setup, touches: number) => Fault[];

const forms: Readonly<Record<FaultName, Forms>> = {
  'part-absent': ({ solids }) =>
    solids.length === 0 ? [] : [fault('part-absent', () => ({ solids: [] }), '', { partAbsent: true })],
  'part-shifted': ({ solids, uncertainty }) =>
    solids.length === 0
      ? []
      : alongAxes(uncertainty).map(({ detail, by }) =>
          fault('part-shifted', (before) => ({ solids: shifted(before.solids, by) }), detail, {
            moves: [{ kind: 'shift', by }],
          }),
        ),
  'part-turned': ({ solids, uncertainty }) => {
    const [first] = solids;
    if (!first || uncertainty.degrees === 0) return [];
    const centre = { x: first.outline.x, y: first.outline.y };
    return [1, -1].map((sign) => {
      const degrees = sign * uncertainty.degrees;
      const detail = `${sign > 0 ? '+' : '-'}${Math.abs(degrees)}°`;
      const change: Change = (before) => ({ solids: turned(before.solids, centre, degrees) });
      return fault('part-turned', change, detail, { moves: [{ kind: 'turn', centre, degrees }] });
    });
  },
  'probe-dead': (_, touches) => (touches === 0 ? [] : [fault('probe-dead', () => ({ deadProbe: true }))]),
  'probe-tripped': (_, touches) => atEach(touches, 'probe-tripped', 'trippedBefore'),
  'false-trip': (_, touches) => atEach(touches, 'false-trip', 'falseTrip'),
  'probe-stuck': (_, touches) => atEach(touches, 'probe-stuck', 'stuckAfter'),
  'start-shifted': ({ uncertainty }) =>
    alongAxes(uncertainty).map(({ detail, by }) =>
      fault(
        'start-shifted',
        ({ start: at }) => ({ start: [at[0] + by[0], at[1] + by[1], at[2] + by[2]] }),
        detail,
      ),
    ),
  'feed-doubled': () => [fault('feed-doubled', () => ({ override: 2 }))],
  'wrong-tool': ({ wrongToolLength }) =>
    wrongToolLength === 0
      ? []
      : [wrongToolLength, -wrongToolLength].map((lengthError) =>
          fault(
            'wrong-tool',
            (before) => ({ lengthError: before.lengthError + lengthError }),
            `${lengthError > 0 ? '+' : '-'}${Number(wrongToolLength.toFixed(6))} mm`,
          ),
        ),
};

type Change = (before: Disturbance) => Partial<Disturbance>;

function fault(
  name: FaultName,
  change: Change,
  detail = '',
  more: Partial<Pick<Fault, 'touch' | 'moves' | 'partAbsent'>> = {},
): Fault {
  const { touch = null, moves = [], partAbsent = false } = more;
  return {
    name,
    detail,
    touch,
    falseTrips: name === 'false-trip' && touch !== null ? [touch] : [],
    change: (before) => ({ ...before, ...change(before) }),
    moves,
    partAbsent,
  };
}

/** Once at each touch. */
function atEach(
  touches: number,
  name: FaultName,
  key: 'trippedBefore' | 'falseTrip' | 'stuckAfter',
): Fault[] {
  return Array.from({ length: touches }, (_, i) =>
    fault(name, (before) => ({ [key]: [...before[key], i + 1] }), '', { touch: i + 1 }),
  );
}

function alongAxes(
  uncertainty: Setup['uncertainty'],
): { detail: string; by: readonly [number, number, number] }[] {
  return (['x', 'y', 'z'] as const).flatMap((axis, i) =>
    uncertainty[axis] === 0
      ? []
      : [1, -1].map((sign) => {
          const by: [number, number, number] = [0, 0, 0];
          by[i] = sign * uncertainty[axis];
          return { detail: `${sign > 0 ? '+' : '-'}${axis}`, by };
        }),
  );
}
