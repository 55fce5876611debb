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

test('progress counts every fault', () => {
  const seen: [number, number][] = [];
  const setup = { ...plate, uncertainty: { x: 1, y: 1, z: 1, degrees: 1 } };
  const options = { progress: (done: number, all: number) => seen.push([done, all]) };
  rehearsed(`${head}G38.2 Z-5 F60\nG0 Z20\nM2`, setup, { options });
  expect(seen).toEqual(seen.map((_, index) => [index, seen.length]));
  expect(seen.length).toBeGreaterThan(15);
});
