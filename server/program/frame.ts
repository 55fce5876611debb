import type { Frame, Rig } from './rig.ts';
import { add, given, isNumber, scale, subtract, type Value } from './value.ts';

const straight: Frame = { polar: false, factors: [1, 1, 1], centre: [0, 0, 0], rotation: null };

/** The frame with some of it changed; null where nothing is left between written and work coordinates. */
export function changedFrame(frame: Rig['frame'], change: Partial<Frame>): Rig['frame'] {
  if (frame === 'unknown') return 'unknown';
  const next = { ...(frame ?? straight), ...change };
  const plain = !next.polar && next.rotation === null && next.factors.every((f) => f === 1);
  return plain ? null : next;
}

/** Written coordinates (X, Y, Z …, polar ones made straight before) as work coordinates. */
export function toWork(frame: Rig['frame'], written: readonly Value[], key: string): Value[] {
  if (frame === null) return [...written];
  if (frame === 'unknown') return lost(written, key);
  const scaled = written.map((v, i) => {
    const centre = frame.centre[i] ?? 0;
    return i < 3 ? scaleBy(subtract(v, centre), frame.factors[i] ?? 1, centre, `${key}:${i}`) : v;
  });
  return turned(frame, scaled, 1, key);
}

/** Work coordinates as a block would write them. */
export function fromWork(frame: Rig['frame'], work: readonly Value[], key: string): Value[] {
  if (frame === null) return [...work];
  if (frame === 'unknown') return lost(work, key);
  return turned(frame, work, -1, key).map((v, i) => {
    const factor = frame.factors[i] ?? 1;
    if (i > 2) return v;
    const inverse = isNumber(factor) && factor !== 0 ? 1 / factor : given(`${key}:factor`, 'a scale');
    return scaleBy(subtract(v, frame.centre[i] ?? 0), inverse, frame.centre[i] ?? 0, `${key}:${i}`);
  });
}

/** Whether an arc of this plane runs the other way round: one of its two axes is mirrored. */
export function mirrored(frame: Rig['frame'], axes: readonly [number, number]): boolean {
  if (frame === null || frame === 'unknown') return false;
  return axes.filter((i) => Number(frame.factors[i]) < 0).length === 1;
}

/** Radius and angle of a polar position as two coordinates; the angle of the origin does not matter. */
export function fromPolar(radius: Value, degrees: Value, key: string): [Value, Value] {
  if (radius === 0) return [0, 0];
  if (!isNumber(degrees)) return [unknownAt(`${key}:polar0`), unknownAt(`${key}:polar1`)];
  const angle = (degrees * Math.PI) / 180;
  return [scale(radius, Math.cos(angle)), scale(radius, Math.sin(angle))];
}

/** Radius and angle of a point of the plane. */
export function toPolar(
  first: Value,
  second: Value,
  key: string,
): { readonly radius: Value; readonly degrees: Value } {
  if (isNumber(first) && isNumber(second))
    return { radius: Math.hypot(first, second), degrees: (Math.atan2(second, first) * 180) / Math.PI };
  return { radius: given(`polar:${key}:r`, 'a radius'), degrees: given(`polar:${key}:a`, 'an angle') };
}

function turned(frame: Frame, point: readonly Value[], sign: 1 | -1, key: string): Value[] {
  const turn = frame.rotation;
  if (turn === null) return [...point];
  const [first, second] = turn.axes;
  const result = [...point];
  if (!isNumber(turn.degrees)) {
    for (const i of turn.axes) result[i] = unknownAt(`${key}:${i}`);
    return result;
  }
  const angle = (sign * turn.degrees * Math.PI) / 180;
  const a = subtract(point[first] ?? 0, turn.centre[0]);
  const b = subtract(point[second] ?? 0, turn.centre[1]);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  result[first] = add(turn.centre[0], subtract(scale(a, cos), scale(b, sin)));
  result[second] = add(turn.centre[1], add(scale(a, sin), scale(b, cos)));
  return result;
}

function scaleBy(from: Value, factor: Value, centre: Value, key: string): Value {
  if (isNumber(factor)) return factor === 1 ? add(from, centre) : add(scale(from, factor), centre);
  return isNumber(from) ? add(scale(factor, from), centre) : unknownAt(key);
}

function lost(point: readonly Value[], key: string): Value[] {
  return point.map((v, i) => (i < 3 ? unknownAt(`${key}:${i}`) : v));
}

function unknownAt(key: string): Value {
  return given(`frame:${key}`, 'coordinates that are turned or scaled by what is not known');
}
