import { type ModeGroup, maskOf, modeNames } from './modes.ts';

/** A code that puts one mode in force, and nothing else. */
export interface ModeEffect {
  readonly group: ModeGroup;
  readonly mask: number;
  /** Step of NISTIR 6556, Table 8 (order of execution within a block). */
  readonly step: number;
}

const steps: Partial<Record<ModeGroup, number>> = {
  feedMode: 2,
  spindle: 7,
  plane: 11,
  units: 12,
  cutterCompensation: 13,
  toolLength: 14,
  workOffset: 15,
  distance: 17,
};

/** Code → effect: the one place that says what a modal code does. */
export const modeEffects: ReadonlyMap<string, ModeEffect> = new Map(
  Object.entries(steps).flatMap(([group, step]) =>
    modeNames[group as ModeGroup].slice(2).map((code) => {
      const effect: ModeEffect = { group: group as ModeGroup, mask: maskOf(group as ModeGroup, code), step };
      return [code, effect] as const;
    }),
  ),
);

export const steps8 = {
  comment: 1,
  feed: 3,
  speed: 4,
  tool: 5,
  toolChange: 6,
  coolant: 8,
  axes: 19,
  motion: 20,
  stop: 21,
} as const;

/** Coolant codes act on each other: M7 and M8 may run together (NISTIR 6556, Table 4), M9 ends both. */
export function coolantAfter(code: 'M7' | 'M8' | 'M9', before: number): number {
  if (code === 'M9') return maskOf('coolant', 'M9');
  const other = maskOf('coolant', code === 'M7' ? 'M8' : 'M7');
  const both = maskOf('coolant', 'M7+M8');
  const own = maskOf('coolant', code);
  const joined = before & (other | both) ? both : 0;
  return before & ~(other | both) ? joined | own : joined || own;
}

/** What M2 and M30 put back (NISTIR 6556, 3.6.1); the macro family leaves its own modes, so this is rs274ngc's. */
export const modesAfterEnd: readonly (readonly [ModeGroup, string])[] = [
  ['workOffset', 'G54'],
  ['offsetShift', 'none'],
  ['plane', 'G17'],
  ['distance', 'G90'],
  ['feedMode', 'G94'],
  ['cutterCompensation', 'G40'],
  ['spindle', 'M5'],
  ['motion', 'G1'],
  ['coolant', 'M9'],
];

export const motionCodes = new Set(['G0', 'G1', 'G2', 'G3', 'G38.2', 'G38.3', 'G38.4', 'G38.5', 'G80']);
export const cycleCodes = new Set([
  'G73',
  'G74',
  'G76',
  'G81',
  'G82',
  'G83',
  'G84',
  'G85',
  'G86',
  'G87',
  'G88',
  'G89',
]);
/** Codes of group 0 that take the axis words of their block for themselves. */
export const axisUsers = new Set([
  'G4',
  'G10',
  'G28',
  'G28.1',
  'G30',
  'G30.1',
  'G52',
  'G53',
  'G92',
  'G65',
  'G66',
  'G68',
  'G68.1',
  'G68.2',
  'G68.3',
  'G68.4',
  'G50',
  'G50.1',
  'G51',
  'G51.1',
  'G16',
  'G15',
  'G92.1',
  'G92.2',
  'G92.3',
]);
