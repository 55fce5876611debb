import { Matrix, solve } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { builtInProfile } from '../../server/profile/profile.ts';
import { planeTilt } from '../../server/routines/planeTilt.ts';
import { writeRoutine } from '../../server/routines/registry.ts';
import type { Part } from './parts.ts';
import { runProgram } from './runProgram.ts';
import { start } from './scene.ts';
import { TestMachine } from './testMachine.ts';

const origins = new Map([[1, [10, 20, -300] as const]]);
const spans = { spanX: 80, spanY: 50 };

/** A face that leans and is not flat, mm over the place of the start: height, and the same as a part under the ball. */
const heightAt = (dx: number, dy: number) =>
  -12 + 0.004 * dx - 0.007 * dy + 0.00009 * dx * dy - 0.00012 * dx * dx + 0.0002 * dy * dy;
const face: Part = (x, y, z) => z - start[2] - heightAt(x - start[0], y - start[1]);

/** The program as it ran: its results, and the places that it touched, from the start. */
function measured(dialect: 'rs274ngc' | 'macro', touches: number) {
  const options = { profile: builtInProfile, dialect, form: 'inline', units: 'mm' } as const;
  const written = writeRoutine(planeTilt, { ...spans, touches }, options);
  if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
  const places = new Map<string, readonly [number, number]>();
  const watched: Part = (x, y, z) => {
    const away = face(x, y, z);
    // The ball's middle is its radius over what it touches.
    const near = 2.1;
    if (away < near) places.set(`${x.toFixed(3)} ${y.toFixed(3)}`, [x - start[0], y - start[1]]);
    return away;
  };
  const machine = new TestMachine(watched, start, 2, 0, 0.2);
  const { message, parameters } = runProgram(written.text, dialect, machine, origins);
  const result = (name: string) =>
    parameters.get((written.parameters.get(name) ?? '').replace(/[#<>]/g, '')) ?? Number.NaN;
  return { message, result, places: [...places.values()] };
}

const degrees = (slope: number) => (Math.atan(slope) * 180) / Math.PI;

describe('the tilt is that of the least-squares plane through the places touched', () => {
  const cases = (['rs274ngc', 'macro'] as const).flatMap((dialect) =>
    [3, 4, 5, 6, 7, 8, 9].map((touches) => ({ dialect, touches })),
  );
  test.each(cases)('$touches touches, $dialect', ({ dialect, touches }) => {
    const { message, result, places } = measured(dialect, touches);
    expect(message).toBeNull();
    expect(places).toHaveLength(touches);
    for (const [axis, span] of [spans.spanX, spans.spanY].entries())
      for (const end of [-1, 1])
        expect(places.some((place) => Math.abs((place[axis] ?? 0) - (end * span) / 2) < 1e-6)).toBe(true);
    const design = new Matrix(places.map(([x, y]) => [1, x, y]));
    const heights = Matrix.columnVector(places.map(([x, y]) => heightAt(x, y)));
    const plane = solve(design, heights, true);
    const [slopeX, slopeY] = [plane.get(1, 0), plane.get(2, 0)];
    expect(result('tiltX')).toBeCloseTo(degrees(slopeY), 5);
    expect(result('tiltY')).toBeCloseTo(degrees(-slopeX), 5);
    const rests = Matrix.sub(heights, design.mmul(plane)).to1DArray();
    const flatness = Math.max(...rests) - Math.min(...rests);
    if (touches === 3) expect(result('flatness')).toBeNaN();
    else expect(result('flatness')).toBeCloseTo(flatness, 4);
  });
});
