/**
 * Modal groups that probing depends on, as sets of codes that may be in force. A set is a bit mask over the names below:
 * one bit in a run on numbers, several where paths join. Bit 0 'unset': nothing in the program set it yet;
 * bit 1 'unknown': it can't be told (entry of a subroutine, an unknown call).
 */
export const modeNames = {
  units: ['unset', 'unknown', 'G20', 'G21'],
  distance: ['unset', 'unknown', 'G90', 'G91'],
  feedMode: ['unset', 'unknown', 'G93', 'G94', 'G95'],
  plane: ['unset', 'unknown', 'G17', 'G18', 'G19'],
  cutterCompensation: ['unset', 'unknown', 'G40', 'G41', 'G42', 'G41.1', 'G42.1'],
  toolLength: ['unset', 'unknown', 'G49', 'G43', 'G43.1', 'G44', 'G43.2'],
  workOffset: [
    'unset',
    'unknown',
    'G54',
    'G55',
    'G56',
    'G57',
    'G58',
    'G59',
    'G59.1',
    'G59.2',
    'G59.3',
    'G54.1',
  ],
  motion: ['unset', 'unknown', 'G0', 'G1', 'G2', 'G3', 'G38.2', 'G38.3', 'G38.4', 'G38.5', 'G80', 'cycle'],
  spindle: ['unset', 'unknown', 'M3', 'M4', 'M5'],
  /** Whether the spindle turned since it was last oriented: the phase of the probe's lobes hangs on it. */
  orientation: ['unset', 'unknown', 'turned', 'M19'],
  coolant: ['unset', 'unknown', 'M7', 'M8', 'M9', 'M7+M8'],
  offsetShift: ['unset', 'unknown', 'none', 'G92', 'G52'],
  returnLevel: ['unset', 'unknown', 'G98', 'G99'],
  arcDistance: ['unset', 'unknown', 'G90.1', 'G91.1'],
  pathControl: ['unset', 'unknown', 'G61', 'G61.1', 'G64'],
  spindleMode: ['unset', 'unknown', 'G96', 'G97'],
  latheDiameter: ['unset', 'unknown', 'G7', 'G8'],
  overrides: ['unset', 'unknown', 'M48', 'M49'],
  /** While G66 is in force the control calls a macro after every motion. */
  macroMode: ['unset', 'unknown', 'G66', 'G66.1', 'G67'],
} as const satisfies Record<string, readonly string[]>;

export type ModeGroup = keyof typeof modeNames;
export const modeGroups = Object.keys(modeNames) as ModeGroup[];

export type ModeMasks = Readonly<Record<ModeGroup, number>>;

export const unset = 1;
export const unknown = 2;

/** The mask of one code; a code that the group does not list is 'unknown'. */
export function maskOf(group: ModeGroup, code: string): number {
  const index = (modeNames[group] as readonly string[]).indexOf(code);
  return index < 0 ? unknown : 1 << index;
}

export function allModes(mask: number): Record<ModeGroup, number> {
  return Object.fromEntries(modeGroups.map((g) => [g, mask])) as Record<ModeGroup, number>;
}

/** Names of the codes in a mask; each list is made once, as it is asked for with every motion. */
export function namesIn(group: ModeGroup, mask: number): readonly string[] {
  const known = namesByMask[group];
  const names = known.get(mask) ?? modeNames[group].filter((_, i) => mask & (1 << i));
  if (!known.has(mask)) known.set(mask, names);
  return names;
}

const namesByMask = Object.fromEntries(
  modeGroups.map((group) => [group, new Map<number, readonly string[]>()]),
) as Record<ModeGroup, Map<number, readonly string[]>>;

/** The one code in force, or null where it is not set, not known, or differs by path. */
export function onlyCode(group: ModeGroup, mask: number): string | null {
  const single = mask > unknown && (mask & (mask - 1)) === 0;
  return single ? (modeNames[group][31 - Math.clz32(mask)] ?? null) : null;
}
