import type { Scope } from './evaluate.ts';
import { fromPolar, toPolar } from './frame.ts';
import { namesIn, onlyCode } from './modes.ts';
import { planeAxes } from './plane.ts';
import type { ReadBlock } from './readBlock.ts';
import { axisLetters } from './state.ts';
import { add, given, scale, type Value } from './value.ts';
import { fromMachine, toMachine } from './workZero.ts';

/**
 * Where the block's axis words lead, in written coordinates from `from` on (NISTIR 6556, 3.5.17: G90 and G91). X words
 * are diameters under G7; polar ones (G16) are made straight.
 */
export function writtenTarget(
  read: ReadBlock,
  axes: readonly number[],
  from: readonly Value[],
  scope: Scope,
): Value[] {
  const { frame } = scope.state.rig;
  if (frame !== null && frame !== 'unknown' && frame.polar) return polarTarget(read, axes, from, scope);
  return from.map((v, i) => axisTarget(read, axes, i, v, scope));
}

/** Where G53 leads, work coordinates: its words are machine coordinates whatever the distance mode. */
export function machineTarget(read: ReadBlock, axes: readonly number[], scope: Scope): Value[] {
  const { state } = scope;
  const machine = toMachine(state.position, scope);
  const wanted = machine.map((v, i) => (axes.includes(i) ? (wordOf(read, i, scope) ?? v) : v));
  const work = fromMachine(wanted, scope);
  // An axis that the block does not name stands where it stood, to the last digit.
  return work.map((v, i) => (axes.includes(i) ? v : (state.position[i] ?? v)));
}

function axisTarget(
  read: ReadBlock,
  axes: readonly number[],
  axis: number,
  from: Value,
  scope: Scope,
): Value {
  const value = axes.includes(axis) ? wordOf(read, axis, scope) : undefined;
  if (value === undefined) return from;
  const names = namesIn('distance', scope.state.modes.distance);
  // Nothing set: G90, as after M2 (NISTIR 6556, 3.6.1); `mode-assumed` says that it was relied on.
  if (names.every((n) => n === 'G90' || n === 'unset')) return value;
  if (names.every((n) => n === 'G91')) return add(from, value);
  return given(`distance:${scope.line}:${axis}`, 'absolute or incremental is not known here');
}

function wordOf(read: ReadBlock, axis: number, scope: Scope): Value | undefined {
  const value = read.words.get(axisLetters[axis] ?? '')?.value;
  const diameter = axis === 0 && onlyCode('latheDiameter', scope.state.modes.latheDiameter) === 'G7';
  return value !== undefined && diameter ? scale(value, 0.5) : value;
}

/** Radius and angle about the work origin; each that the block leaves out is that of where the tool stands. */
function polarTarget(
  read: ReadBlock,
  axes: readonly number[],
  from: readonly Value[],
  scope: Scope,
): Value[] {
  const plane = planeAxes(scope.state.modes.plane);
  const straight = from.map((v, i) => axisTarget(read, axes, i, v, scope));
  if (plane === null)
    return straight.map((v, i) => (i < 3 ? given(`polar:${scope.line}:${i}`, 'the plane') : v));
  const { first, second } = plane;
  if (!axes.includes(first) && !axes.includes(second)) return straight;
  const here = toPolar(from[first] ?? 0, from[second] ?? 0, `${scope.line}`);
  const at = fromPolar(
    axisTarget(read, axes, first, here.radius, scope),
    axisTarget(read, axes, second, here.degrees, scope),
    `${scope.line}`,
  );
  [straight[first], straight[second]] = at;
  return straight;
}
