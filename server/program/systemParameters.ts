import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import { type ModeGroup, modeNames, namesIn, onlyCode } from './modes.ts';
import { activeOffset, unitScale } from './parameters.ts';
import { axisLetters, type State } from './state.ts';
import { add, given, isNumber, lookedAt, scale, single, type Value } from './value.ts';
import { workZero } from './workZero.ts';
import type { World } from './world.ts';

interface Asked {
  readonly state: State;
  readonly world: World;
  readonly dialect: DialectName;
  readonly place: Place;
}

/** A parameter that the control itself keeps up to date; null where the number is none of these. */
export function readSystem(n: number, asked: Asked): Value | null {
  const { state, world, dialect, place } = asked;
  const own = world.system?.(n, state) ?? null;
  if (own !== null) return own;
  if (n >= 5061 && n <= 5069) {
    world.latchRead?.(n - 5061, place, state);
    return latchedAt(n - 5061, state, world);
  }
  if (dialect === 'macro') return readMacroSystem(n, asked);
  if (n === 5070) return state.success;
  if (n === 5220) return activeNumber(state);
  if (n === 5399) return numberOf('5399', asked) ?? status(state, place);
  if (n === 5400) return known(state.rig.loadedTool);
  if (n >= 5401 && n <= 5409) return toolOffset(n - 5401, state, world);
  if (n === 5410) return null;
  if (n >= 5420 && n <= 5428) return state.position[n - 5420] ?? null;
  return null;
}

/**
 * `#<_x>` and what else rs274ngc names of its own state (common practice, no source); null for other names and for
 * what is not known.
 */
export function readNamed(name: string, asked: Asked): Value | null {
  const { state, world, dialect, place } = asked;
  const axis = /^_(abs_)?([xyzabcuvw])$/.exec(name);
  if (axis) {
    const index = axisLetters.indexOf(axis[2]?.toUpperCase() as 'X');
    const own = state.position[index] ?? null;
    if (!axis[1] || own === null) return own;
    const zero = workZero(index, { state, world, dialect, line: place.line });
    return isNumber(own) && isNumber(zero) ? own + zero : given(`machine:${index}`, 'a machine position');
  }
  const mode = namedModes[name];
  if (mode) {
    const code = onlyCode(mode.group, state.modes[mode.group]);
    return code === null ? null : mode.codes.includes(code) ? 1 : 0;
  }
  if (name === '_rpm') return known(state.rig.speed);
  if (name === '_current_tool') return known(state.rig.loadedTool);
  if (name === '_selected_tool') return known(state.rig.selectedTool);
  if (name === '_feed') return scale(state.feed.value, unitScale(state, world));
  if (name === '_coord_system') {
    const code = activeOffset(state);
    return code === null ? null : Math.round(Number(code.slice(1)) * 10);
  }
  return null;
}

/** Names that are 1 while one of these codes is in force, else 0. */
const namedModes: Readonly<Record<string, { group: ModeGroup; codes: readonly string[] }>> = {
  _metric: { group: 'units', codes: ['G21'] },
  _imperial: { group: 'units', codes: ['G20'] },
  _absolute: { group: 'distance', codes: ['G90'] },
  _incremental: { group: 'distance', codes: ['G91'] },
  _inverse_time: { group: 'feedMode', codes: ['G93'] },
  _units_per_minute: { group: 'feedMode', codes: ['G94'] },
  _units_per_rev: { group: 'feedMode', codes: ['G95'] },
  _spindle_on: { group: 'spindle', codes: ['M3', 'M4'] },
  _spindle_cw: { group: 'spindle', codes: ['M3'] },
  _mist: { group: 'coolant', codes: ['M7', 'M7+M8'] },
  _flood: { group: 'coolant', codes: ['M8', 'M7+M8'] },
};

function readMacroSystem(n: number, asked: Asked): Value | null {
  const { state, world } = asked;
  if (n >= 5001 && n <= 5009) return state.position[n - 5001] ?? null;
  if (n >= 5041 && n <= 5049) return state.position[n - 5041] ?? null;
  if (n >= 5021 && n <= 5029) return machineAt(n - 5021, asked);
  if (n >= 5081 && n <= 5089) return toolOffset(n - 5081, state, world);
  if (n >= 1000 && n <= 1035)
    return numberOf(String(n), asked) ?? status(state, { line: -1, start: n, end: n });
  if (n === 4109) return scale(state.feed.value, unitScale(state, world));
  if (n === 4119) return known(state.rig.speed);
  if (n === 4120) return known(state.rig.selectedTool);
  if (n === 4130) return known(state.rig.extendedOffset);
  if (n === 4009) return cycleNumber(state);
  if (n === 4016) return turnNumber(state);
  const group = modalNumbers[n];
  return group === undefined ? null : modal(group, state);
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
  4010: 'returnLevel',
  4014: 'workOffset',
};

function modal(group: ModeGroup, state: State): Value {
  const code = onlyCode(group, state.modes[group]);
  const number = code === null ? Number.NaN : Number(code.slice(1));
  if (Number.isFinite(number)) return number;
  return given(`modal:${group}:${state.modes[group]}`, namesIn(group, state.modes[group]).join(' or '));
}

/** The mode group and mask that a saved modal value stands for. */
export function savedMode(value: Value): { group: ModeGroup; mask: number } | null {
  if (typeof value === 'number' || value.terms.length !== 1 || value.constant !== 0) return null;
  const match = /^g:modal:(\w+):(\d+):/.exec(value.terms[0]?.unknown.key ?? '');
  return match ? { group: match[1] as ModeGroup, mask: Number(match[2]) } : null;
}

function cycleNumber({ rig, modes }: State): Value | null {
  if (onlyCode('motion', modes.motion) !== 'cycle') return onlyCode('motion', modes.motion) ? 80 : null;
  return rig.cycle === null || rig.cycle === 'unknown' ? null : Number(rig.cycle.code.slice(1));
}

function turnNumber({ rig }: State): Value | null {
  if (rig.frame === 'unknown') return null;
  return rig.frame?.rotation ? 68 : 69;
}

function latchedAt(axis: number, state: State, world: World): Value {
  const latched = state.latched[axis];
  if (latched === null || latched === undefined) return given('never-latched', 'no touch was made before');
  return axis >= 3 && axis <= 5 ? latched : scale(latched, unitScale(state, world));
}

function activeNumber(state: State): Value {
  const code = activeOffset(state);
  return code
    ? modeNames.workOffset.indexOf(code as 'G54') - 1
    : given('active-system', 'the work offset in force is not known');
}

function machineAt(axis: number, { state, world, dialect, place }: Asked): Value | null {
  const own = state.position[axis];
  if (own === undefined) return null;
  const zero = workZero(axis, { state, world, dialect, line: place.line });
  if (isNumber(own) && isNumber(zero)) return own + zero;
  return add(
    own,
    isNumber(zero) ? zero : given(`origin:${axis}`, 'where the work origin lies on the machine'),
  );
}

function toolOffset(axis: number, state: State, world: World): Value | null {
  const value = state.rig.toolOffset[axis] ?? 0;
  return known(axis >= 3 && axis <= 5 ? value : scale(value, unitScale(state, world)));
}

/** A plain number, else null: the world may know it. */
function known(value: Value): number | null {
  return isNumber(value) ? value : null;
}

function numberOf(name: string, { state, world, place }: Asked): number | null {
  const value = world.parameter(name, state, place);
  return value !== null && isNumber(value) ? value : null;
}

function status(state: State, place: Place): Value {
  const touches = [...lookedAt(state.success)].sort((a, b) => a - b);
  return single({ kind: 'status', key: `s:${place.line}:${place.start}:${touches.join(',')}`, touches });
}
