import { describe, expect, test } from 'vitest';
import { ran } from './fakeTerminal.ts';

const program = `G21 G90 G94
G54
G0 X0 Y0
G38.2 X20 F60
#<right> = #5061
G0 X0
G38.2 X-20
#<left> = #5061
G0 X0
G10 L2 P1 X[#5221 + [#<right> + #<left>] / 2]
M2
`;

/** Repeatability alone is uncertain: U of the centre is 1.96·0.001/√2 = 0.001386 mm. */
const profile = {
  probe: {
    tipDiameter: 6,
    repeatability: 0.001,
    runout: 0,
    calibration: { effectiveDiameter: 5.96, expandedUncertainty: 0, feed: 60, harmonics: [] },
  },
  machine: {
    tripLatency: 0,
    latchPeriod: 0,
    resolution: 0,
    positioningUncertainty: 0,
    spindleOrientation: true,
  },
};

const files = (changes: object = {}) => ({
  '/shop/bore.ngc': program,
  '/shop/probewright.json': JSON.stringify({ ...profile, ...changes }),
});

async function datum(options: readonly string[], changes: object = {}) {
  const { out } = await ran(['error', 'bore.ngc', '--format', 'json', ...options], { files: files(changes) });
  return JSON.parse(out).files[0].datums[0];
}

describe('a tolerance', () => {
  test('that holds ten times the expected error is decided', async () => {
    const { decision } = await datum(['--tolerance', '0.02']);
    expect(decision).toMatchObject({
      tolerance: 0.02,
      verdict: 'ten-to-one',
      decides: true,
      ratioWanted: 10,
    });
    expect(decision.guardBand).toBeCloseTo(0.001386, 6);
    expect(decision.acceptance).toBeCloseTo(0.02 - 0.001386, 6);
    const { out } = await ran(['error', 'bore.ngc', '--tolerance', '0.02'], { files: files() });
    expect(out).toContain(
      'tolerance         ±20.0 µm: can be decided at 10:1, 14.4 times the expected error\n',
    );
    expect(out).toContain('accept            within ±18.6 µm once the bias is off (guard band 1.4 µm = U)');
    expect(out).not.toContain('for 10:1');
  });

  test('that is too small for it lists what would do, and says what is enough', async () => {
    const { decision } = await datum(['--tolerance', '0.008']);
    expect(decision).toMatchObject({ verdict: 'four-to-one', decides: false });
    expect(decision.options[0]).toMatchObject({ changes: [{ kind: 'touches', count: 4 }], decides: true });
    expect(decision.options[0].expectedError).toBeCloseTo(0.001386 / 2, 6);
    const { out } = await ran(['error', 'bore.ngc', '--tolerance', '0.008'], { files: files() });
    expect(out).toContain(
      'for 10:1          touch 4 times in each place and use the mean: 0.7 µm, enough for 10:1\n',
    );
  });

  test('that another ratio is asked for', async () => {
    expect((await datum(['--tolerance', '0.008', '--ratio', '4'])).decision).toMatchObject({
      decides: true,
      ratioWanted: 4,
    });
  });

  test('that the machine alone forbids', async () => {
    const machine = { ...profile.machine, positioningUncertainty: 0.02 };
    const { decision } = await datum(['--tolerance', '0.01'], { machine });
    expect(decision.verdict).toBe('cannot');
    // 1.96·0.01/√2, against a tenth of the tolerance.
    expect(decision.floor.expectedError).toBeCloseTo(0.01386, 5);
    expect(decision.floor.positioningNeeded).toBeCloseTo(0.001 / (0.979982 / Math.SQRT2), 6);
    const { out } = await ran(['error', 'bore.ngc', '--tolerance', '0.01'], { files: files({ machine }) });
    expect(out.replace(/\s+/g, ' ')).toContain(
      'in the way positioning alone makes ±13.9 µm of it; under ±1.4 µm',
    );
  });

  test.each([
    ['0.02', 0.02],
    ['±0.02mm', 0.02],
    ['0.001in', 0.0254],
    ['.5 inch', 12.7],
  ])('written %s', async (written, tolerance) => {
    expect((await datum(['--tolerance', written])).decision.tolerance).toBeCloseTo(tolerance, 12);
  });

  test('without a unit is in that of the profile', async () => {
    expect(
      (await datum(['--tolerance', '0.001'], { units: 'inch', probe: {}, machine: {} })).decision.tolerance,
    ).toBeCloseTo(0.0254, 12);
  });
});

describe('drawing', () => {
  test('agrees with the linear formula where every part is normal, and comes again', async () => {
    const drawn = (await datum(['--trials', 'adaptive'])).monteCarlo;
    expect(drawn).toMatchObject({ seed: 1, stable: true });
    expect(drawn.standardUncertainty).toBeCloseTo(0.001 / Math.SQRT2, 5);
    expect(drawn.symmetricInterval[1]).toBeCloseTo(0.001386, 5);
    expect((await datum(['--trials', '2000', '--seed', '7'])).monteCarlo).toEqual(
      (await datum(['--trials', '2000', '--seed', '7'])).monteCarlo,
    );
  });

  test('says in text what it found', async () => {
    const { out } = await ran(['error', 'bore.ngc', '--trials', '200000'], { files: files() });
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /drawn mean [+−]?0\.0 µm, u 0\.7 µm, 95 % from −1\.4 µm to \+1\.4 µm \(200000 trials, seed 1\); the linear ±U is/,
    );
  });

  test('says why where it cannot', async () => {
    const blind = program.replace('G38.2 X20 F60', 'G38.2 X20 F#<_feed>');
    const { out } = await ran(['error', 'bore.ngc', '--trials', '1000'], {
      files: { ...files({ machine: {} }), '/shop/bore.ngc': blind },
    });
    expect(out).toContain('drawn             not drawn: the feed of a touch: not known here');
  });
});

test('unasked, no key is added', async () => {
  const keys = Object.keys(await datum([]));
  expect(keys).not.toContain('decision');
  expect(keys).not.toContain('monteCarlo');
});

test('a datum with an input in it has neither a decision nor a drawing', async () => {
  const withInput = program.replace(/^(G10 L2 P1 X)(.*)$/m, '$1[$2+#<_tip>-#<_a>*#<_b>+#5061]');
  expect(withInput).not.toBe(program);
  const { out } = await ran(['error', 'bore.ngc', '--tolerance', '0.01', '--trials', '1000'], {
    files: { ...files(), '/shop/bore.ngc': withInput },
  });
  const said = out.replace(/\s+/g, ' ');
  expect(said).toContain('something whose value is not in the file');
  expect(said).toContain('bias not known yet');
  expect(said).toContain('not drawn: what is added that the file does not show');
});

describe('options that make no sense are refused with 2', () => {
  test.each([
    [['--tolerance', '-0.01'], '--tolerance -0.01: name half of its width'],
    [['--tolerance', '0'], '--tolerance 0: name half of its width'],
    [['--tolerance', '1 m'], '--tolerance 1 m: name half of its width'],
    [['--tolerance', '0.01', '--ratio', 'x'], '--ratio x: a number from 1 to 100'],
    [['--trials', '10'], '--trials 10: a whole number from 1000 to 4000000, or adaptive.'],
    [['--trials', '1e9'], '--trials 1e9: a whole number'],
    [['--trials', '1000', '--seed', '1.5'], '--seed 1.5: a whole number.'],
  ])('%j', async (options, message) => {
    const result = await ran(['error', 'bore.ngc', ...options], { files: files() });
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain(message);
  });
});
