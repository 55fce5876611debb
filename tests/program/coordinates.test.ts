import { describe, expect, it } from 'vitest';
import { NumericWorld, numericStart } from './numericWorld.ts';
import { runLines } from './runLines.ts';

const worldWith = (parameters: Record<string, number>) => new NumericWorld('mm', () => null, parameters);
const from = (x: number, y = 0, z = 0) => numericStart({ X: x, Y: y, Z: z });

describe('work and machine coordinates on numbers', () => {
  it('re-express the position where another work offset is selected', () => {
    const world = worldWith({ '5221': 100, '5241': 120, '7001': 50 });
    expect(runLines('g55', 'rs274ngc', from(10), world).at(0)).toEqual([-10]);
    expect(runLines('G54.1 P1', 'macro', from(10), world).at(0)).toEqual([60]);
    expect(runLines('G54 P1', 'macro', from(10), world).at(0)).toEqual([10]);
  });

  it('go to machine coordinates by G53, whatever the distance mode', () => {
    const world = worldWith({ '5223': -200, '5201': 1, '5221': 10 });
    const ran = runLines('g91 g53 g0 z0', 'rs274ngc', from(0, 0, 5), world);
    expect(ran.at(2)).toEqual([200]);
    expect(ran.world.motions[0]).toMatchObject({ kind: 'machine-coordinates', machineCoordinates: true });
    expect(ran.world.legs[0]).toMatchObject([{ kind: 'rapid' }]);
    expect(runLines('G53 G0 X0', 'macro', from(0), world).at(0)).toEqual([-11]);
    expect(runLines('', 'macro', from(5), world).read('#5021')).toBe(16);
    expect(runLines('', 'rs274ngc', from(5), world).read('#<_x>')).toBe(5);
  });

  it('shift by G92 and take it back, keep it and put it back', () => {
    const shifted = 'g92 x7';
    expect(runLines(`${shifted}\ng92.1`, 'rs274ngc', from(4)).at(0)).toEqual([4]);
    expect(runLines(`${shifted}\ng92.1`, 'rs274ngc', from(4)).read('#5211')).toBe(0);
    expect(runLines(`${shifted}\ng92.2`, 'rs274ngc', from(4)).at(0)).toEqual([4]);
    expect(runLines(`${shifted}\ng92.2`, 'rs274ngc', from(4)).read('#5211')).toBe(-3);
    expect(runLines(`${shifted}\ng92.2\ng92.3`, 'rs274ngc', from(4)).at(0)).toEqual([7]);
    expect(runLines(`${shifted}\ng92 x1`, 'rs274ngc', from(4)).read('#5211')).toBe(3);
  });

  it('shift by G52 until its zero', () => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      expect(runLines('G52 X3.', dialect, from(4)).at(0)).toEqual([1]);
      expect(runLines('G52 X3.\nG52 X5.', dialect, from(4)).at(0)).toEqual([-1]);
      expect(runLines('G52 X3.\nG52 X0', dialect, from(4)).at(0)).toEqual([4]);
    }
    expect(runLines('G92 X0\nG52 X3.\nG52 X0', 'macro', from(4)).at(0)).toEqual([0]);
  });

  it('write offsets by G10 L2 and L20, active or not', () => {
    const world = worldWith({ '5221': 100 });
    const active = runLines('g10 l20 p1 x0', 'rs274ngc', from(4), world);
    expect([active.at(0), active.read('#5221')]).toEqual([[0], 104]);
    const other = runLines('g10 l20 p2 x1', 'rs274ngc', from(4), world);
    expect([other.at(0), other.read('#5241')]).toEqual([[4], 103]);
    const plain = runLines('g10 l2 p1 x90', 'rs274ngc', from(4), world);
    expect([plain.at(0), plain.read('#5221')]).toEqual([[14], 90]);
    expect(runLines('g10 l20 p0 x0', 'rs274ngc', from(4), world).read('#5221')).toBe(104);
    const added = runLines('G91 G10 L2 P1 X5.', 'macro', from(4), world);
    expect([added.at(0), added.read('#5221')]).toEqual([[-1], 105]);
    expect(runLines('G10 L2 P0 X5.', 'macro', from(4), world).at(0)).toEqual([-1]);
    expect(runLines('G10 L20 P2 X9.', 'macro', from(4), world).read('#7021')).toBe(9);
  });

  // Radius and angle as rs274ngc files write them: common practice, no source.
  it('go to polar positions, whole, in part and by steps', () => {
    const at = (text: string, x = 0, y = 0) => runLines(text, 'rs274ngc', from(x, y)).at(0, 1);
    expect(at('g0 @10 ^90')).toEqual([0, 10]);
    expect(at('g90 g1 @10 ^-180 f100')).toEqual([-10, 0]);
    expect(at('g1 ^90 f100', 3, 4)).toEqual([0, 5]);
    expect(at('g1 @10 f100', 3, 4)).toEqual([6, 8]);
    expect(at('#1=2\ng91 g1 @[#1*0.5] ^90 f100', 4)).toEqual([0, 5]);
    expect(at('g91 g1 ^90 f100', 4)).toEqual([0, 4]);
    const ran = runLines('g90 g1 @10 ^0 f100\n@20\ng38.2 @5 z-1', 'rs274ngc', from(0));
    expect(ran.world.motions.map(({ kind, axes }) => [kind, axes])).toEqual([
      ['feed', [0, 1]],
      ['feed', [0, 1]],
    ]);
    expect(ran.world.touches.map(({ to }) => to.slice(0, 3))).toEqual([[5, 0, -1]]);
  });

  it('turn a work offset by G10 R', () => {
    const ran = runLines('g10 l2 p1 r90', 'rs274ngc', from(10, 0));
    expect(ran.at(0, 1)).toEqual([0, -10]);
    expect(runLines('g10 l2 p1 r90\ng53 g0 x7 y2', 'rs274ngc', from(0)).at(0, 1)).toEqual([2, -7]);
  });

  it('apply tool lengths of the table, of the block, added, and none', () => {
    const world = worldWith({ 'tool:3:z': 50, 'tool:4:z': 20, '10007': 1, '11007': 60 });
    expect(runLines('g43 h3', 'rs274ngc', from(0, 0, 100), world).at(2)).toEqual([50]);
    expect(runLines('t3 m6\ng43', 'rs274ngc', from(0, 0, 100), world).at(2)).toEqual([50]);
    expect(runLines('g43 h3\ng43.2 h4', 'rs274ngc', from(0, 0, 100), world).at(2)).toEqual([30]);
    expect(runLines('g43.1 z5', 'rs274ngc', from(0, 0, 100), world).at(2)).toEqual([95]);
    expect(runLines('g43 h3\ng49', 'rs274ngc', from(0, 0, 100), world).at(2)).toEqual([100]);
    expect(runLines('g43 h3', 'rs274ngc', from(0, 0, 100), world).read('#5403')).toBe(50);
    expect(runLines('G43 H7', 'macro', from(0, 0, 100), world).at(2)).toEqual([39]);
    expect(runLines('G44 H7', 'macro', from(0, 0, 100), world).at(2)).toEqual([161]);
    expect(runLines('G10 L10 P9 R12.\nG43 H9', 'macro', from(0)).at(2)).toEqual([-12]);
    expect(runLines('#2209=12.\nG43 H9', 'macro', from(0)).at(2)).toEqual([-12]);
    expect(runLines('g10 l1 p5 z12\ng43 h5', 'rs274ngc', from(0)).at(2)).toEqual([-12]);
    expect(runLines('g10 l10 p5 z2\ng43 h5', 'rs274ngc', from(0, 0, 30)).at(2)).toEqual([2]);
  });

  it('go home by way of a point', () => {
    const world = worldWith({ '5161': 1, '5163': 300, 'reference:1:z': 250 });
    const { legs } = runLines('g91 g28 z5', 'rs274ngc', from(10, 0, 20), world).world;
    expect(legs[0]?.map((leg) => ('to' in leg ? leg.to.slice(0, 3) : []))).toEqual([
      [10, 0, 25],
      [10, 0, 300],
    ]);
    expect(runLines('G91 G28 Z0', 'macro', from(10, 0, 20), world).at(0, 2)).toEqual([10, 250]);
    expect(runLines('g28.1\ng0 x0\ng28', 'rs274ngc', from(10, 4, 2)).at(0, 1, 2)).toEqual([10, 4, 2]);
  });
});

describe('written coordinates of the macro family (common practice, no source)', () => {
  const ends = (text: string) => runLines(text, 'macro', from(0)).at(0, 1);

  it('are polar under G16', () => {
    expect(ends('G16\nG0 X10. Y90.')).toEqual([0, 10]);
    expect(ends('G16\nG0 X10. Y30.\nG91 Y60.')).toEqual([0, 10]);
    expect(ends('G16\nG0 X10. Y90.\nG15\nG0 X1.')).toEqual([1, 10]);
  });

  it('are turned under G68', () => {
    expect(ends('G68 X0 Y0 R90.\nG0 X10.')).toEqual([0, 10]);
    expect(ends('G68 X5. Y0 R180.\nG0 X0 Y0')).toEqual([10, 0]);
    expect(ends('G68 X0 Y0 R90.\nG91 G0 X10.\nG69\nG0 X1.')).toEqual([1, 10]);
  });

  it('are scaled and mirrored under G51 and G51.1', () => {
    expect(ends('G51 X0 Y0 P2000\nG0 X10. Y1.')).toEqual([20, 2]);
    expect(ends('G51 X0 Y0 I2. J.5 K1.\nG0 X10. Y1.')).toEqual([20, 0.5]);
    expect(ends('G51.1 X0\nG0 X10. Y1.\nG50.1\nG0 Y2.')).toEqual([-10, 2]);
  });

  it('turn an arc round where one axis is mirrored', () => {
    const { world } = runLines('G51.1 X0\nG2 X10. Y10. I10. J0 F100', 'macro', from(0));
    const [leg] = world.legs[0] ?? [];
    expect(leg).toMatchObject({ kind: 'arc', radius: 10 });
    expect(leg?.kind === 'arc' && leg.centre.map((v) => Math.round(v) + 0)).toEqual([-10, 0]);
    expect(leg?.kind === 'arc' && leg.sweep > 0).toBe(true);
  });
});

describe('arcs', () => {
  const arcOf = (text: string, start = from(0)) => runLines(text, 'rs274ngc', start).world.legs.at(-1)?.[0];
  const turned = (text: string, start = from(0)) => {
    const leg = arcOf(text, start);
    return leg?.kind === 'arc' ? Math.round((leg.sweep * 180) / Math.PI) : leg;
  };

  it('run in all planes, helical and round several times', () => {
    expect(turned('g17 g3 x10 y10 i0 j10')).toBe(90);
    // ZX: from +Y one sees Z to the right and X up.
    expect(turned('g18 g3 x10 z10 i10 k0')).toBe(90);
    expect(turned('g19 g3 y10 z10 j0 k10')).toBe(90);
    expect(turned('g17 g2 i5')).toBe(-360);
    expect(turned('g17 g3 i5 z-4 p3')).toBe(1080);
    expect(arcOf('g17 g3 i5 z-4 p3')).toMatchObject({ plane: [0, 1], to: [0, 0, -4, 0, 0, 0, 0, 0, 0] });
  });

  it('take centres as positions under G90.1', () => {
    expect(arcOf('g90.1 g2 x20 y10 i20 j0', from(10))).toMatchObject({ centre: [20, 0], radius: 10 });
  });

  it('halve X words under G7', () => {
    expect(runLines('g7 g0 x10', 'rs274ngc').at(0)).toEqual([5]);
  });

  it('are a fault where they are none', () => {
    const told = (text: string) => runLines(text).world.faults;
    expect(told('g2 x10')).toEqual(['arc-without-centre']);
    expect(told('g2 x10 i0 j0')).toEqual(['arc-zero-radius']);
    expect(told('g2 x10 i4')).toEqual(['arc-radius-mismatch']);
    expect(told('g2 x0 y0 r5')).toEqual(['arc-ends-at-start']);
  });

  it('tell the feed in mm/min in every feed mode', () => {
    const feed = (text: string) => {
      const leg = runLines(text).world.legs.at(-1)?.[0];
      return leg && 'feed' in leg ? leg.feed : null;
    };
    expect(feed('g21 g1 x10 f100')).toBe(100);
    expect(feed('g20 g1 x10 f10')).toBeCloseTo(254, 9);
    expect(feed('g21 g95 s500 g1 x10 f.2')).toBeCloseTo(100, 9);
    expect(feed('g21 g1 f100\ng93 g1 x5 f4\ng94 g1 x9')).toBeNull();
  });
});
