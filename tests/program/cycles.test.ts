import { describe, expect, it } from 'vitest';
import type { Leg } from '../../server/program/world.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { numericStart } from './numericWorld.ts';
import { runLines } from './runLines.ts';

/** Legs of the last motion as `rapid X Y Z`, `feed …`, `M5`, `dwell 0.5`. */
function path(text: string, dialect: DialectName = 'rs274ngc', start = numericStart({ Z: 10 })): string[] {
  const { world } = runLines(text, dialect, start);
  expect(world.faults).toEqual([]);
  return (world.legs.at(-1) ?? []).map(shown);
}

function shown(leg: Leg): string {
  if (leg.kind === 'dwell') return `dwell ${leg.seconds}`;
  if (!('to' in leg)) return leg.code;
  const to = leg.to.slice(0, 3).map((v) => Math.round(v * 1000) / 1000);
  return `${leg.kind} ${to.join(' ')}`;
}

const at = (x: number, y: number, z: number) => `${x} ${y} ${z}`;

describe('canned cycles of holes (NISTIR 6556, 3.5.16)', () => {
  it('drill, and come back to where the series began or to R', () => {
    expect(path('g98 g81 x5 y6 z-3 r2')).toEqual([
      `rapid ${at(5, 6, 10)}`,
      `rapid ${at(5, 6, 2)}`,
      `feed ${at(5, 6, -3)}`,
      `rapid ${at(5, 6, 10)}`,
    ]);
    expect(path('g99 g81 x5 y6 z-3 r2').at(-1)).toBe(`rapid ${at(5, 6, 2)}`);
  });

  it('keep R and the bottom for the blocks that follow, until another motion', () => {
    const { world, state } = runLines(
      'g99 g81 x1 z-3 r2\nx5\ng80\ng0 z7',
      'rs274ngc',
      numericStart({ Z: 10 }),
    );
    expect(world.legs[1]?.map(shown)).toEqual([
      `rapid ${at(5, 0, 2)}`,
      `feed ${at(5, 0, -3)}`,
      `rapid ${at(5, 0, 2)}`,
    ]);
    expect(state.rig.cycle).toBeNull();
  });

  it('repeat L times, at the same place under G90 and step by step under G91', () => {
    const holes = (legs: string[]) => legs.filter((leg) => leg.startsWith('feed'));
    expect(holes(path('g90 g81 x1 z-3 r2 l2'))).toEqual([`feed ${at(1, 0, -3)}`, `feed ${at(1, 0, -3)}`]);
    expect(holes(path('g91 g81 x1 z-3 r-8 l2'))).toEqual([`feed ${at(1, 0, -1)}`, `feed ${at(2, 0, -1)}`]);
    expect(holes(path('G91 G81 X1. Z-3. R-8. K3', 'macro'))).toHaveLength(3);
  });

  it('start at R where the tool stands below it', () => {
    expect(path('g98 g81 x5 z-3 r2', 'rs274ngc', numericStart({ Z: -1 }))).toEqual([
      `rapid ${at(0, 0, 2)}`,
      `rapid ${at(5, 0, 2)}`,
      `feed ${at(5, 0, -3)}`,
      `rapid ${at(5, 0, 2)}`,
    ]);
  });

  it('peck out to R, or only a little back', () => {
    expect(path('g21 g99 g83 x0 z-3 r1 q2').slice(1)).toEqual([
      `feed ${at(0, 0, -1)}`,
      `rapid ${at(0, 0, 1)}`,
      `rapid ${at(0, 0, -0.746)}`,
      `feed ${at(0, 0, -3)}`,
      `rapid ${at(0, 0, 1)}`,
    ]);
    expect(path('g21 g99 g73 x0 z-3 r1 q2')).toContain(`rapid ${at(0, 0, -0.746)}`);
  });

  it('dwell, stop and turn the spindle', () => {
    expect(path('m3 g99 g82 x0 z-3 r1 p0.5').at(-2)).toBe('dwell 0.5');
    expect(path('M3 G99 G82 X0 Z-3. R1. P500', 'macro').at(-2)).toBe('dwell 0.5');
    expect(path('m4 g99 g86 x0 z-3 r1 p1').slice(2)).toEqual(['dwell 1', 'M5', `rapid ${at(0, 0, 1)}`, 'M4']);
    expect(path('g99 g84 x0 z-3 r1').slice(2)).toEqual(['M5', 'M4', `feed ${at(0, 0, 1)}`, 'M5', 'M3']);
    expect(path('m3 g99 g88 x0 z-3 r1 p0').slice(2)).toEqual(['M5', 'M0', `rapid ${at(0, 0, 1)}`, 'M3']);
    expect(path('g99 g89 x0 z-3 r1 p1').slice(2)).toEqual(['dwell 1', `feed ${at(0, 0, 1)}`]);
    expect(path('G98 G85 X0 Z-3. R1.', 'macro').slice(2)).toEqual([
      `feed ${at(0, 0, 1)}`,
      `rapid ${at(0, 0, 10)}`,
    ]);
  });

  it('bore from behind', () => {
    expect(path('m3 g98 g87 x5 y0 z-6 r1 i2 j0 k-4')).toEqual([
      `rapid ${at(5, 0, 10)}`,
      `rapid ${at(7, 0, 10)}`,
      'M19',
      `rapid ${at(7, 0, -6)}`,
      `rapid ${at(5, 0, -6)}`,
      'M3',
      `feed ${at(5, 0, -4)}`,
      `feed ${at(5, 0, -6)}`,
      'M19',
      `rapid ${at(7, 0, -6)}`,
      `rapid ${at(7, 0, 10)}`,
      `rapid ${at(5, 0, 10)}`,
      'M3',
    ]);
  });

  it('work along the axis that the plane leaves', () => {
    expect(path('g18 g99 g81 x1 y-3 z2 r5', 'rs274ngc', numericStart({ Y: 8 }))).toEqual([
      `rapid ${at(1, 8, 2)}`,
      `rapid ${at(1, 5, 2)}`,
      `feed ${at(1, -3, 2)}`,
      `rapid ${at(1, 5, 2)}`,
    ]);
  });

  it('are a fault without R or a bottom', () => {
    expect(runLines('g81 x1 z-3').world.faults).toEqual(['cycle-without-r']);
    expect(runLines('g81 x1 r3').world.faults).toEqual(['cycle-without-bottom']);
  });

  it('of another code keep what the dialect says: all in the macro family, R alone in rs274ngc', () => {
    expect(runLines('G81 X1. Z-3. R2.\nG85 X2.', 'macro').world.faults).toEqual([]);
    expect(runLines('g81 x1 z-3 r2\ng85 x2').world.faults).toEqual(['cycle-without-bottom']);
    expect(runLines('g81 x1 z-3 r2\ng85 x2 z-4').world.faults).toEqual([]);
  });
});
