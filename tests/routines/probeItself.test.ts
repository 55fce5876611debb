import { describe, expect, test } from 'vitest';
import { type Calibration, calibrate } from '../../server/probe/calibration/calibrate.ts';
import { readTouches } from '../../server/probe/calibration/readTouches.ts';
import { builtInProfile, type Profile } from '../../server/profile/profile.ts';
import { routineNamed, writeRoutine } from '../../server/routines/registry.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { halfSpace, nothing, type Part, plateWithHole, solidsPart } from './parts.ts';
import type { Inputs } from './randomInputs.ts';
import { lengthAtStart, type Outcome, runProgram } from './runProgram.ts';
import { start } from './scene.ts';
import { type Nature, type Point, TestMachine } from './testMachine.ts';

const origins = new Map<number, Point>([[1, [10, 20, -300]]]);
const turning: Profile = {
  ...builtInProfile,
  machine: { ...builtInProfile.machine, spindleOrientation: true },
};
const dialects = ['rs274ngc', 'macro'] as const;
/** By hand and by M19. */
const spindles = [builtInProfile, turning].flatMap((profile, i) =>
  dialects.map((dialect) => ({ dialect, profile, how: i === 0 ? 'by hand' : 'by M19' })),
);
const preTravel = 0.012;

function run(
  name: string,
  inputs: Inputs,
  dialect: DialectName,
  part: Part,
  nature: Nature = {},
  profile = builtInProfile,
  turnsWith?: { table: number },
): Outcome {
  const routine = routineNamed(name);
  if (routine === null) throw new Error(name);
  const written = writeRoutine(routine, inputs, {
    profile,
    dialect,
    form: 'inline',
    units: 'mm',
    standAlone: true,
  });
  if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
  const radius = profile.probe.tipDiameter / 2;
  const machine = new TestMachine(part, start, radius, preTravel, 0.2, {}, nature);
  if (turnsWith !== undefined) Object.defineProperty(turnsWith, 'table', { get: () => machine.table });
  const outcome = runProgram(written.text, dialect, machine, origins);
  return { ...outcome, parameters: named(written.text, outcome) };
}

/** Results by their titles, as the last comment names them. */
function named(text: string, { parameters }: Outcome): ReadonlyMap<string, number> {
  const said = /results: (.*?)\.[ )]/is.exec(text.replace(/\)\n\(/g, ' '))?.[1] ?? '';
  return new Map(
    said.split(', ').map((each) => {
      const [, name = '', title = ''] = /^#<?(\w+)>? (.*)$/.exec(each) ?? [];
      return [title.toLowerCase(), parameters.get(name) ?? Number.NaN];
    }),
  );
}

const at = (dx: number, dy: number) => [start[0] + dx, start[1] + dy] as const;

function ring(diameter: number, dx: number, dy: number): Part {
  const [x, y] = at(dx, dy);
  return plateWithHole(x, y, diameter, start[2] - 5);
}

/** What `calibrate` makes of what was printed. */
function calibrationOf(printed: readonly string[]): Calibration {
  const read = readTouches(printed.join('\n'), 1);
  if (!('touches' in read)) throw new Error(JSON.stringify(read.problems));
  const reference = { kind: 'ring', size: 40, expandedUncertainty: 0 } as const;
  const found = calibrate(read.touches, reference, { orders: [3], tipDiameter: 4, repeatability: null });
  if (!('harmonics' in found)) throw new Error(found.kind);
  return found;
}

/** Three lobes, and a sine part. */
const lobes = (degrees: number) =>
  0.004 * Math.cos((3 * degrees * Math.PI) / 180) - 0.0015 * Math.sin((3 * degrees * Math.PI) / 180);

describe('a calibration on a ring', () => {
  test.each(dialects)('its touches and its results tell the diameter and the lobes, %s', (dialect) => {
    const inputs = { diameter: 40, touches: 12, firstAngle: 10 };
    const { printed, parameters, message } = run('ring-calibration', inputs, dialect, ring(40, 0.8, -0.5), {
      lobes,
    });
    expect(message).toBeNull();
    expect(printed).toHaveLength(13);
    const { effectiveDiameter, harmonics, centre } = calibrationOf(printed);
    const wanted = builtInProfile.probe.tipDiameter - 2 * preTravel;
    expect(effectiveDiameter).toBeCloseTo(wanted, 4);
    expect(parameters.get('the effective tip diameter')).toBeCloseTo(wanted, 4);
    // More pre-travel is less radius.
    expect(harmonics.find(({ order }) => order === 3)?.cosine).toBeCloseTo(-0.004, 4);
    expect(parameters.get('the cosine part of three lobes')).toBeCloseTo(-0.004, 4);
    expect(parameters.get('the sine part of three lobes')).toBeCloseTo(0.0015, 4);
    const [x, y] = at(0.8, -0.5);
    expect(centre[0]).toBeCloseTo(x - 10, 3);
    expect(centre[1]).toBeCloseTo(y - 20, 3);
  });

  test.each(spindles)(
    'turned by 180 degrees, run-out shows apart from the centre, $dialect $how',
    ({ dialect, profile }) => {
      const inputs = { diameter: 40, touches: 9, spindle: 'both' };
      const nature = { runout: [0.02, -0.01], lobes } as const;
      const { printed } = run('ring-calibration', inputs, dialect, ring(40, 0.3, 0.2), nature, profile);
      const { harmonics, centre, spindles: turns } = calibrationOf(printed);
      expect(turns).toEqual([0, 180]);
      const first = harmonics.find(({ order }) => order === 1);
      expect([first?.cosine, first?.sine]).toEqual([expect.closeTo(0.02, 3), expect.closeTo(-0.01, 3)]);
      expect(centre[0]).toBeCloseTo(at(0.3, 0.2)[0] - 10, 3);
    },
  );
});

describe('a check of the calibration', () => {
  test.each(dialects)('is quiet within the limit and stops with a message beyond it, %s', (dialect) => {
    const check = (diameter: number) =>
      run('calibration-check', { diameter: 30, limit: 0.03 }, dialect, ring(diameter, 0.4, 0.1));
    expect(check(30).message).toBeNull();
    expect(check(30).parameters.get('how much the size along x is off')).toBeCloseTo(2 * preTravel, 4);
    expect(check(30.02).message).toMatch(/calibration.* along X/i);
    expect(check(29.9).message).toMatch(/calibrat/i);
    expect(check(30.02).written.size).toBe(0);
  });
});

describe('a check of the calibration on a gauge block', () => {
  /** Its faces square to `across`. */
  const gauge = (across: 'X' | 'Y', size: number) => {
    const [x, y] = at(0.4, -0.7);
    const [halfX, halfY] = across === 'X' ? [size / 2, 17.5] : [17.5, size / 2];
    const outline = { kind: 'rectangle', x, y, halfX, halfY, angle: 0 } as const;
    return solidsPart([{ role: 'add', outline, bottom: start[2] - 40, top: start[2] - 5 }]);
  };
  const cases = dialects.flatMap((dialect) => (['X', 'Y'] as const).map((across) => ({ dialect, across })));

  test.each(cases)('measures along $across alone, $dialect', ({ dialect, across }) => {
    const check = (size: number) =>
      run(
        'calibration-check',
        { reference: 'block', across, diameter: 50, limit: 0.03 },
        dialect,
        gauge(across, size),
      );
    const { message, parameters } = check(50);
    expect(message).toBeNull();
    const off = [...parameters].filter(([title]) => title.startsWith('how much'));
    // A probe that trips late sees a block smaller by twice its pre-travel.
    expect(off).toEqual([
      [`how much the size along ${across.toLowerCase()} is off`, expect.closeTo(-2 * preTravel, 4)],
    ]);
    expect(check(50.1).message).toMatch(new RegExp(`calibration.* along ${across}`, 'i'));
    expect(check(49.9).message).toMatch(/calibrat/i);
  });
});

describe('the length of the probe', () => {
  test.each(dialects)('is what would have found the face in its place, %s', (dialect) => {
    // The face lies 1.3 mm above where the program takes it for: the tip is that much lower than its length says.
    const gauge = 20;
    const face = start[2] - 12 + 300 - gauge - 1.3;
    const { toolLengths, message } = run(
      'length-reference',
      { tool: 7, distance: 12, face, gauge },
      dialect,
      halfSpace([0, 0, 1], start[2] - 12),
    );
    expect(message).toBeNull();
    expect([...toolLengths.keys()]).toEqual([7]);
    expect(toolLengths.get(7)).toBeCloseTo(lengthAtStart + 1.3, 4);
  });
});

describe('run-out of the tip', () => {
  test.each(spindles)('is found by four touches, $dialect $how', ({ dialect, profile }) => {
    const part = halfSpace([-1, 0, 0], -(start[0] + 14));
    const { parameters } = run('tip-runout', {}, dialect, part, { runout: [0.03, -0.02] }, profile);
    expect(parameters.get('off the axis along the touch')).toBeCloseTo(0.03, 4);
    expect(parameters.get('off the axis square to the touch')).toBeCloseTo(-0.02, 4);
    expect(parameters.get('the run-out')).toBeCloseTo(Math.hypot(0.03, 0.02), 4);
  });
});

describe('a centre by reversal', () => {
  const nature = { runout: [0.05, 0.03], lobes } as const;
  const originOf = ({ written }: Outcome) => written.get(1) ?? {};
  test.each(spindles)('is true where a plain bore is not, $dialect $how', ({ dialect, profile }) => {
    const [x, y] = at(0.6, -0.9);
    const part = ring(25, 0.6, -0.9);
    const { X, Y } = originOf(run('reversal-centre', { diameter: 25 }, dialect, part, nature, profile));
    expect(X).toBeCloseTo(x, 3);
    expect(Y).toBeCloseTo(y, 3);
    const plain = originOf(run('bore', { diameter: 25 }, dialect, part, nature, profile));
    expect(Math.abs((plain.X ?? Number.NaN) - x)).toBeGreaterThan(0.03);
  });
});

describe('the centre of a rotary table', () => {
  test.each(dialects.flatMap((dialect) => [2, 3, 4].map((positions) => ({ dialect, positions }))))(
    'is what the feature turns about, $dialect, $positions positions',
    ({ dialect, positions }) => {
      const pivot = at(0.7, -0.4);
      const { written } = run('rotary-centre', { diameter: 40, positions }, dialect, ring(40, 1.1, 0.3), {
        pivot,
      });
      expect(written.get(1)?.X).toBeCloseTo(pivot[0], 3);
      expect(written.get(1)?.Y).toBeCloseTo(pivot[1], 3);
    },
  );
});

describe('the line that a fourth axis turns about', () => {
  /** A square bar along X. */
  const bar = (halfWidth: number, y: number, z: number) =>
    solidsPart([
      {
        role: 'add',
        outline: { kind: 'rectangle', x: 0, y, halfX: 1000, halfY: halfWidth, angle: 0 },
        bottom: z - halfWidth,
        top: z + halfWidth,
      },
    ]);

  test.each(dialects)('is found with a bar that does not run true, %s', (dialect) => {
    const line = [start[1] + 0.4, start[2] - 12 - 10] as const;
    const [outY, outZ] = [0.6, -0.3];
    /** Where the middle of the bar stands at each angle, the axis counting from Y to Z. */
    const middles = [0, 90, 180, 270].map((degrees) => {
      const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
      return [line[0] + outY * cos - outZ * sin, line[1] + outY * sin + outZ * cos] as const;
    });
    const parts = middles.map(([y, z]) => bar(10, y, z));
    const machine = { table: 0 };
    const part: Part = (x, y, z) => (parts[Math.round(machine.table / 90)] ?? nothing)(x, y, z);
    const { written, message } = run(
      'rotary-axis',
      { width: 20, distance: 12, depth: 10 },
      dialect,
      part,
      {},
      builtInProfile,
      machine,
    );
    expect(message).toBeNull();
    expect(written.get(1)?.Y).toBeCloseTo(line[0], 3);
    // The width is short by what the tip trips late, and the line higher by half of it.
    expect(written.get(1)?.Z).toBeCloseTo(line[1] + preTravel, 3);
  });
});
