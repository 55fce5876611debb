import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import { onlyCode, unset } from './modes.ts';
import { input, type State, setParameter } from './state.ts';
import { readNamed, readSystem } from './systemParameters.ts';
import { empty, type Value } from './value.ts';
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
  const number = wholeNumber(name);
  if (number === 0 && dialect === 'macro') return empty;
  const asked = { state, world, dialect, place };
  const system = number !== null ? readSystem(number, asked) : readByName(name, asked);
  if (system !== null) return system;
  const local = number === null ? isLocal(name, dialect) : isLocalNumber(number, dialect);
  const key = storedName(name, dialect);
  const set = (local ? state.locals : state.globals).get(key);
  if (set !== undefined) return set;
  if (local && number !== null && state.unsetLocal !== null) return state.unsetLocal;
  return world.parameter(key, state, place) ?? input(key);
}

function readByName(name: string, asked: Parameters<typeof readNamed>[1]): Value | null {
  return asked.dialect === 'rs274ngc' && name.startsWith('_') ? readNamed(name, asked) : null;
}

function wholeNumber(name: string): number | null {
  const first = name.charCodeAt(0);
  return first >= 0x30 && first <= 0x39 && /^\d+$/.test(name) ? Number(name) : null;
}

/** The macro family has two numbers for each of the first 200 tool offsets: kept under the longer one. */
function storedName(name: string, dialect: DialectName): string {
  if (dialect !== 'macro' || name.length !== 4 || !name.startsWith('2')) return name;
  const number = Number(name);
  if (number >= 2001 && number <= 2200) return String(number + 8000);
  return number >= 2201 && number <= 2400 ? String(number + 8800) : name;
}

export function writeParameter(name: string, value: Value, state: State, dialect: DialectName): void {
  setParameter(state, isLocal(name, dialect) ? 'locals' : 'globals', storedName(name, dialect), value);
}

/** Locals end with their routine: `#<name>` and the argument numbers; all else is shared. */
export function isLocal(name: string, dialect: DialectName): boolean {
  const number = wholeNumber(name);
  if (number !== null) return isLocalNumber(number, dialect);
  return !name.startsWith('_') && !name.includes(':');
}

function isLocalNumber(number: number, dialect: DialectName): boolean {
  return number >= 1 && number <= (dialect === 'macro' ? 33 : 30);
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
  if (state.modes.workOffset === unset) return 'G54';
  const code = onlyCode('workOffset', state.modes.workOffset);
  if (code !== 'G54.1') return code;
  const p = state.rig.extendedOffset;
  return typeof p === 'number' ? `G54.1 P${p}` : null;
}

const numberedOffsets = ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3'];

/** First parameter number of a work offset; null where it has none that is known. */
export function offsetNumber(system: string): number | null {
  const k = numberedOffsets.indexOf(system);
  if (k >= 0) return 5221 + 20 * k;
  const p = Number(/^G54\.1 P(\d+)$/.exec(system)?.[1] ?? 0);
  return p >= 1 && p <= 48 ? 7001 + 20 * (p - 1) : null;
}
