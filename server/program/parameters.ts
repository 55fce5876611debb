import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import { type ModeGroup, modeNames, namesIn, onlyCode, unset } from './modes.ts';
import { axisLetters, input, type State, setParameter } from './state.ts';
import { add, given, scale, single, type Value } from './value.ts';
import type { World } from './world.ts';

/** mm to program units: the factor that a length in mm is multiplied with. */
export function unitScale(state: State, world: World): number {
  const code = onlyCode('units', state.modes.units);
  const inch = code === null ? world.assumedUnit === 'inch' && !(state.modes.units & 8) : code === 'G20';
  return inch ? 1 / 25.4 : 1;
}

/** A parameter as it stands: what the program set, what the machine knows, else an input. `name` has no `#`. */
export function readParameter(
  name: string,
  state: State,
  world: World,
  dialect: DialectName,
  place: Place,
): Value {
  const local = isLocal(name, dialect);
  const set = (local ? state.locals : state.globals).get(name);
  const number = /^\d+$/.test(name) ? Number(name) : null;
  if (number !== null) {
    const system = readSystem(number, state, world, dialect, place);
    if (system !== null) return system;
  } else if (dialect === 'rs274ngc') {
    const axis = /^_([xyzabcuvw])$/.exec(name)?.[1];
    if (axis) return state.position[axisLetters.indexOf(axis.toUpperCase() as 'X')] ?? input(name);
  }
  if (set !== undefined) return set;
  if (local && number !== null && state.unsetLocal !== null) return state.unsetLocal;
  return world.parameter(name, state, place) ?? input(name);
}

export function writeParameter(name: string, value: Value, state: State, dialect: DialectName): void {
  setParameter(state, isLocal(name, dialect) ? 'locals' : 'globals', name, value);
}

/** Locals end with their routine: `#<name>` and the argument numbers; all else is shared. */
export function isLocal(name: string, dialect: DialectName): boolean {
  if (/^\d+$/.test(name)) return Number(name) >= 1 && Number(name) <= (dialect === 'macro' ? 33 : 30);
  return !name.startsWith('_');
}

/** The work offset that a parameter number belongs to: 5221 → G54 x. G54.1 systems of the macro family by their number. */
export function offsetOf(number: number, dialect: DialectName): { system: string; axis: number } | null {
  const k = Math.floor((number - 5221) / 20);
  const axis = (number - 5221) % 20;
  if (number >= 5221 && k < (dialect === 'macro' ? 6 : 9) && axis < 6) {
    const code = ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3'][k];
    return code ? { system: code, axis } : null;
  }
  if (dialect === 'macro' && number >= 7001 && number <= 7960 && (number - 7001) % 20 < 6)
    return { system: `G54.1 P${Math.floor((number - 7001) / 20) + 1}`, axis: (number - 7001) % 20 };
  if (dialect === 'rs274ngc' && number >= 5211 && number <= 5216)
    return { system: 'G92', axis: number - 5211 };
  return null;
}

/** The work offset in force; where nothing set one it is G54, as after M2 (NISTIR 6556, 3.6.1). null: not known. */
export function activeOffset(state: State): string | null {
  return state.modes.workOffset === unset ? 'G54' : onlyCode('workOffset', state.modes.workOffset);
}

/** First parameter number of a work offset. */
export function offsetNumber(system: string): number | null {
  const k = ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3'].indexOf(system);
  return k < 0 ? null : 5221 + 20 * k;
}

function readSystem(n: number, state: State, world: World, dialect: DialectName, place: Place): Value | null {
  const own = world.system?.(n, state) ?? null;
  if (own !== null) return own;
  if (n >= 5061 && n <= 5069) {
    const latched = state.latched[n - 5061];
    if (latched === null || latched === undefined) return given('never-latched', 'no touch was made before');
    return n >= 5064 && n <= 5066 ? latched : scale(latched, unitScale(state, world));
  }
  if (n === 5070 && dialect === 'rs274ngc') return state.success;
  if (n === 5220 && dialect === 'rs274ngc') {
    const code = activeOffset(state);
    return code
      ? modeNames.workOffset.indexOf(code as 'G54') - 1
      : given('active-system', 'the work offset in force is not known');
  }
  if (dialect === 'rs274ngc' && n >= 5420 && n <= 5428) return state.position[n - 5420] ?? null;
  if (dialect === 'macro') return readMacroSystem(n, state);
  if (n === 5399) return status(state, place);
  return null;
}

function readMacroSystem(n: number, state: State): Value | null {
  if (n === 0) return given('empty', '#0 is empty');
  if (n >= 5001 && n <= 5009) return state.position[n - 5001] ?? null;
  if (n >= 5041 && n <= 5049) return state.position[n - 5041] ?? null;
  if (n >= 5021 && n <= 5029) {
    const axis = n - 5021;
    const own = state.position[axis];
    return own === undefined
      ? null
      : add(own, given(`origin:${axis}`, 'where the work origin lies on the machine'));
  }
  if (n >= 1000 && n <= 1035) return status(state, { line: -1, start: n, end: n });
  const group = modalNumbers[n];
  if (group !== undefined)
    return given(`modal:${group}:${state.modes[group]}`, namesIn(group, state.modes[group]).join(' or '));
  return null;
}

/** #4001… hold the code in force of a group; a G word given such a value puts that code back (common practice, no source). */
const modalNumbers: Readonly<Record<number, ModeGroup>> = {
  4001: 'motion',
  4002: 'plane',
  4003: 'distance',
  4005: 'feedMode',
  4006: 'units',
  4007: 'cutterCompensation',
  4008: 'toolLength',
  4014: 'workOffset',
};

/** The mode group and mask that a saved modal value stands for. */
export function savedMode(value: Value): { group: ModeGroup; mask: number } | null {
  if (typeof value === 'number' || value.terms.length !== 1 || value.constant !== 0) return null;
  const match = /^g:modal:(\w+):(\d+):/.exec(value.terms[0]?.unknown.key ?? '');
  return match ? { group: match[1] as ModeGroup, mask: Number(match[2]) } : null;
}

function status(state: State, place: Place): Value {
  const touches: number[] = [];
  if (typeof state.success !== 'number')
    for (const { unknown } of state.success.terms)
      if (unknown.kind === 'success') touches.push(unknown.touch);
  return single({ kind: 'status', key: `s:${place.line}:${place.start}:${touches.join(',')}`, touches });
}

/** What a parameter holds, for a person; null for the program's own. */
export function parameterMeaning(
  name: string,
  dialect: DialectName,
): { title: string; readOnly: boolean } | null {
  const bare = name
    .replace(/^#/, '')
    .replace(/^<(.*)>$/, '$1')
    .toLowerCase();
  const axisName = dialect === 'rs274ngc' ? /^_([xyzabcuvw])$/.exec(bare)?.[1] : undefined;
  if (axisName) return { title: `current ${axisName.toUpperCase()} in work coordinates`, readOnly: true };
  if (!/^\d+$/.test(bare)) return null;
  const n = Number(bare);
  const offset = offsetOf(n, dialect);
  if (offset) return { title: `${offset.system} offset of ${axisLetters[offset.axis]}`, readOnly: false };
  for (const range of meanings)
    if (n >= range.from && n <= range.to && (range.dialect === null || range.dialect === dialect))
      return { title: range.title(n - range.from), readOnly: range.readOnly };
  return null;
}

interface Meaning {
  readonly from: number;
  readonly to: number;
  readonly dialect: DialectName | null;
  readonly readOnly: boolean;
  readonly title: (index: number) => string;
}

const axis = (i: number) => axisLetters[i] ?? '?';

/** NISTIR 6556, Table 2, and what the trade adds to it (common practice, no source). */
const meanings: readonly Meaning[] = [
  {
    from: 5061,
    to: 5069,
    dialect: null,
    readOnly: true,
    title: (i) => `${axis(i)} of the last touch, work coordinates`,
  },
  {
    from: 5070,
    to: 5070,
    dialect: 'rs274ngc',
    readOnly: true,
    title: () => '1 after a touch that met the surface, 0 after one that did not',
  },
  {
    from: 5161,
    to: 5169,
    dialect: 'rs274ngc',
    readOnly: false,
    title: (i) => `${axis(i)} of the G28 position`,
  },
  {
    from: 5181,
    to: 5189,
    dialect: 'rs274ngc',
    readOnly: false,
    title: (i) => `${axis(i)} of the G30 position`,
  },
  {
    from: 5220,
    to: 5220,
    dialect: 'rs274ngc',
    readOnly: false,
    title: () => 'number of the work offset in force, 1 = G54',
  },
  {
    from: 5399,
    to: 5399,
    dialect: 'rs274ngc',
    readOnly: true,
    title: () => 'result of the last wait for an input',
  },
  {
    from: 5400,
    to: 5400,
    dialect: 'rs274ngc',
    readOnly: true,
    title: () => 'number of the tool in the spindle',
  },
  {
    from: 5401,
    to: 5409,
    dialect: 'rs274ngc',
    readOnly: true,
    title: (i) => `${axis(i)} offset of the tool in the spindle`,
  },
  {
    from: 5410,
    to: 5410,
    dialect: 'rs274ngc',
    readOnly: true,
    title: () => 'diameter of the tool in the spindle, from the tool table',
  },
  {
    from: 5420,
    to: 5428,
    dialect: 'rs274ngc',
    readOnly: true,
    title: (i) => `current ${axis(i)} in work coordinates`,
  },
  { from: 0, to: 0, dialect: 'macro', readOnly: true, title: () => 'always empty' },
  { from: 1000, to: 1035, dialect: 'macro', readOnly: true, title: (i) => `input ${i}` },
  {
    from: 3000,
    to: 3000,
    dialect: 'macro',
    readOnly: false,
    title: () => 'setting it stops the program with an alarm',
  },
  {
    from: 3006,
    to: 3006,
    dialect: 'macro',
    readOnly: false,
    title: () => 'setting it stops the program with a message',
  },
  {
    from: 4001,
    to: 4030,
    dialect: 'macro',
    readOnly: true,
    title: (i) => `G code in force in group ${i + 1}`,
  },
  { from: 4109, to: 4109, dialect: 'macro', readOnly: true, title: () => 'feed in force' },
  {
    from: 5001,
    to: 5009,
    dialect: 'macro',
    readOnly: true,
    title: (i) => `${axis(i)} at the end of the last block, work coordinates`,
  },
  {
    from: 5021,
    to: 5029,
    dialect: 'macro',
    readOnly: true,
    title: (i) => `current ${axis(i)}, machine coordinates`,
  },
  {
    from: 5041,
    to: 5049,
    dialect: 'macro',
    readOnly: true,
    title: (i) => `current ${axis(i)}, work coordinates`,
  },
  {
    from: 5201,
    to: 5206,
    dialect: 'macro',
    readOnly: false,
    title: (i) => `common offset of ${axis(i)}, added to every work offset`,
  },
];
