import { describe, expect, test } from 'vitest';
import { idealProbe, plate, rehearsed } from './rehearsed.ts';

const head = 'G21 G90 G94 G17 G40\n';
const alone = { options: { faults: [] } };
const pocket = {
  start: [0, 0, -10],
  part: [
    { add: 'block', min: [-80, -80, -30], max: [80, 80, 0] },
    { cut: 'pocket', min: [-20, -30, -30], max: [20, 30, 0] },
  ],
};

describe('units', () => {
  const inInches = {
    units: 'inch',
    start: [0, 0, -10 / 25.4],
    part: [
      { add: 'block', min: [-4, -4, -2], max: [4, 4, 0] },
      { cut: 'pocket', min: [-1, -1, -2], max: [1, 1, 0] },
    ],
    expect: { 'G54.x': { value: 1, tolerance: 0.0001 } },
  };
  const program = (start: string, radius: string) =>
    `${start}\n#<face> = [#5061 + ${radius}]\nG0 X0\nG10 L2 P1 X#<face>\nM2`;

  test.each([
    ['an inch program', program('G20 G90 G94 G17 G40\nG38.2 X2 F2', '2 / 25.4'), 1],
    ['a mm program', program(`${head}G38.2 X50 F60`, '2'), 25.4],
  ])('%s in an inch setup: the face at 25.4 mm', (_, text, face) => {
    const { undisturbed } = rehearsed(text, inInches, alone);
    expect(undisturbed.outcome.name).toBe('datum-right');
    expect(undisturbed.record.parameters.get('#<face>')).toBeCloseTo(face, 7);
    expect(undisturbed.record.workOffsets.get('G54')?.[0]).toBeCloseTo(25.4, 7);
  });
});

test('G10 L2 R turns the ways and what is latched (common practice, no source)', () => {
  const program = `${head}G10 L2 P1 X5 R90\nG54\nG38.2 X40 F60\n#1 = #5061\nG0 X0\nM2`;
  const { record } = rehearsed(program, pocket, alone).undisturbed;
  expect(record.touches[0]?.surface?.[1]).toBeCloseTo(30, 7);
  expect(record.parameters.get('#1')).toBeCloseTo(28, 7);
});

test('M19 turns the lobes with the spindle: three of them change sides at half a turn', () => {
  const { calibration } = idealProbe.probe;
  const harmonics = [{ order: 3, cosine: 0.01, sine: 0 }];
  const probe = {
    ...idealProbe.probe,
    calibration: { ...calibration, effectiveDiameter: 3.9, harmonics, spindle: 0 },
  };
  const touch = (angle: number, into: string) => `M19 R${angle}\nG38.2 X40 F60\n${into} = #5061\nG0 X0\n`;
  const program = `${head}${touch(0, '#1')}${touch(180, '#2')}M2`;
  const profile = { ...idealProbe, probe };
  const { parameters } = rehearsed(program, pocket, { ...alone, profile }).undisturbed.record;
  expect(parameters.get('#1')).toBeCloseTo(20 - 1.95 - 0.01, 7);
  expect(parameters.get('#2')).toBeCloseTo(20 - 1.95 + 0.01, 7);
});

test.each([
  ['G21', 2.978],
  ['G20', 2.978 / 25.4],
])('the diameter of the tool table comes in the units in force: %s', (units, diameter) => {
  const tools = { 5: { length: 100, diameter: 2.978 } };
  const { record } = rehearsed(`${units}\n#1 = #5410\nM2`, { ...pocket, tool: 5, tools }, alone).undisturbed;
  expect(record.parameters.get('#1')).toBeCloseTo(diameter, 6);
});

test('progress counts every fault', () => {
  const seen: [number, number][] = [];
  const setup = { ...plate, uncertainty: { x: 1, y: 1, z: 1, degrees: 1 } };
  const options = { progress: (done: number, all: number) => seen.push([done, all]) };
  rehearsed(`${head}G38.2 Z-5 F60\nG0 Z20\nM2`, setup, { options });
  expect(seen).toEqual(seen.map((_, index) => [index, seen.length]));
  expect(seen.length).toBeGreaterThan(15);
});

describe('a datum along a direction (G54.xy@30)', () => {
  const [cos, sin] = [Math.cos(Math.PI / 6), 0.5];
  // A wall square to 30 degrees, 20 mm off the middle.
  const wall = { add: 'block', min: [20, -40, -30], max: [60, 40, 30], rotation: 30 };
  // The block turns about its own middle, 40 mm along X: put that 40 mm along the direction.
  const part = [{ ...wall, min: [40 * cos - 20, 20 - 40, -30], max: [40 * cos + 20, 20 + 40, 30] }];
  const setup = (value: number) => ({
    start: [0, 0, 0],
    part,
    uncertainty: { x: 1, y: 1, z: 0, degrees: 1 },
    expect: { 'G54.xy@30': { value, tolerance: 0.001 } },
  });
  const touch = `${head}G38.3 X${30 * cos} Y${30 * sin} F60\n#1 = [#5061 * ${cos} + #5062 * ${sin} + 2]\n`;
  const write = `G0 X0 Y0\nG10 L2 P1 X[#1 * ${cos}] Y[#1 * ${sin}]\nM2`;

  test('is judged by both axes that were written, and moves with the part', () => {
    const { undisturbed, faults } = rehearsed(`${touch}${write}`, setup(20), {
      options: { faults: ['part-shifted', 'part-turned'] },
    });
    expect(undisturbed.outcome.name).toBe('datum-right');
    expect(undisturbed.outcome.errors.get('G54.xy@30')).toBeCloseTo(0, 7);
    // Turned, it is another direction: not judged.
    expect(faults.map(({ outcome }) => outcome.name)).toEqual([
      ...Array(4).fill('datum-right'),
      ...Array(2).fill('completed'),
    ]);
  });

  test('out of its place it is wrong; with one axis alone it was not written', () => {
    const far = rehearsed(`${touch}${write}`, setup(20.5), alone).undisturbed;
    expect(far.outcome.name).toBe('wrong-datum');
    expect(far.outcome.errors.get('G54.xy@30')).toBeCloseTo(-0.5, 7);
    const half = rehearsed(`${touch}${write.replace(/ Y\[.*\]/, '')}`, setup(20), alone);
    expect(half.undisturbed).toMatchObject({
      outcome: { name: 'completed' },
      story: 'ends without writing G54.xy@30',
    });
    expect(half.verdict).toBe('fail');
  });
});
