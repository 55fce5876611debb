import { describe, expect, test } from 'vitest';
import { ran } from './fakeTerminal.ts';

/** Only repeatability is uncertain and only the third order turns the radius, so every number can be had by hand. */
const profile = JSON.stringify({
  probe: {
    tipDiameter: 6,
    repeatability: 0.001,
    calibration: {
      effectiveDiameter: 5.96,
      expandedUncertainty: 0,
      feed: 60,
      harmonics: [{ order: 3, cosine: 0.004, sine: 0 }],
    },
    overtravel: { lateral: 5, axial: 3 },
  },
  machine: {
    tripLatency: 0,
    latchPeriod: 0,
    resolution: 0,
    positioningUncertainty: 0,
    deceleration: 100,
    reactionTime: 0.01,
  },
});

const bore = `G21 G90 G94
G54
G0 X0 Y0
G38.2 X20 F60
#<right> = #5061
G0 X0
G38.2 X-20
#<left> = #5061
G0 X0
G10 L2 P1 X[#5221 + [#<right> + #<left>] / 2]
G0 Y0
G38.2 Y20
G10 L20 P1 Y[10 + 2.98]
M2
`;

const files = { '/shop/bore.ngc': bore, '/shop/probewright.json': profile };

async function json(name: string, situation = files as Record<string, string>) {
  const result = await ran(['error', name, '--format', 'json'], { files: situation });
  return { ...result, file: result.out === '' ? null : JSON.parse(result.out).files[0] };
}

describe('JSON', () => {
  test('a touch has the keys of the contract, in mm, with its bias along the approach', async () => {
    const { file, status } = await json('bore.ngc');
    expect(status).toBe(0);
    const [right, left] = file.touches;
    expect(Object.keys(right)).toEqual([
      'line',
      'code',
      'axis',
      'direction',
      'feed',
      'effectiveRadius',
      'bias',
      'components',
      'notIncluded',
      'standardUncertainty',
      'degreesOfFreedom',
      'coverageFactor',
      'expandedUncertainty',
      'expectedError',
      'stoppingDistance',
      'overtravelLimit',
      'calibrated',
    ]);
    expect(right).toMatchObject({ line: 4, code: 'G38.2', axis: 'x', direction: [1, 0, 0], feed: 60 });
    // r(θ) = 2.98 + 0.004·cos 3θ (error-model.md, section 1); bias = D/2 − r.
    expect(right.effectiveRadius).toBeCloseTo(2.984, 9);
    expect(right.bias).toBeCloseTo(-0.004, 9);
    expect(left.effectiveRadius).toBeCloseTo(2.976, 9);
    expect(left.bias).toBeCloseTo(0.004, 9);
    expect(right.components).toEqual([
      { name: 'repeatability', distribution: 'normal', standardUncertainty: 0.001, degreesOfFreedom: null },
    ]);
    // JCGM 100:2008, table G.2: k = 1.960 for 95 % at infinite degrees of freedom.
    expect(right.coverageFactor).toBeCloseTo(1.96, 3);
    expect(right.expandedUncertainty).toBeCloseTo(0.00196, 6);
    expect(right.expectedError).toBeCloseTo(0.00596, 6);
    // Uniform motion for the reaction time and then constant deceleration: 1·0.01 + 1²/200.
    expect(right.stoppingDistance).toBeCloseTo(0.015, 9);
    expect(right).toMatchObject({ degreesOfFreedom: null, overtravelLimit: 5, calibrated: true });
  });

  test('a datum has its terms and its bias along the + axis: a bore centre is off by −a₃', async () => {
    const { file } = await json('bore.ngc');
    const [centre] = file.datums;
    expect(Object.keys(centre)).toEqual([
      'line',
      'target',
      'terms',
      'diameterCoefficient',
      'bias',
      'components',
      'notIncluded',
      'standardUncertainty',
      'degreesOfFreedom',
      'coverageFactor',
      'expandedUncertainty',
      'expectedError',
    ]);
    expect(centre).toMatchObject({
      line: 10,
      target: 'G54.x',
      terms: [
        { touchLine: 4, axis: 'x', coefficient: 0.5, sign: 1 },
        { touchLine: 7, axis: 'x', coefficient: 0.5, sign: -1 },
      ],
      diameterCoefficient: 0,
    });
    expect(centre.bias).toBeCloseTo(-0.004, 9);
    expect(centre.standardUncertainty).toBeCloseTo(0.001 / Math.sqrt(2), 9);
  });

  test('what is not known is null, with the reason, and not left out', async () => {
    const unknown = 'G21 G90 G94\nG0 X#<_from_elsewhere> Y#<_too>\nG38.2 X#<_target> Y#<_other> F60\nM2\n';
    const { file, status } = await json('open.ngc', { '/shop/open.ngc': unknown, ...files });
    expect(status).toBe(0);
    expect(file.touches).toHaveLength(1);
    expect(file.touches[0]).toMatchObject({ line: 3, direction: null, bias: null, expectedError: null });
    expect(file.touches[0].components).toEqual([]);
  });

  test('a program without touches is no fault', async () => {
    expect(await json('plain.ngc', { '/shop/plain.ngc': 'G21\nG0 X5\nM2\n' })).toMatchObject({
      status: 0,
      file: { path: 'plain.ngc', touches: [], datums: [] },
    });
  });
});

describe('text', () => {
  test('says what it is good for, what it is made of and where each number comes from', async () => {
    const { out } = await ran(['error', 'bore.ngc'], { files });
    expect(out).toContain('bore.ngc (rs274ngc)  profile probewright.json: calibrated\n');
    expect(out).toContain(
      [
        '     4  G38.2 towards X+ at 60 mm/min',
        '        expected error    6.0 µm = bias −4.0 µm, and ±2.0 µm (U, k = 1.96)',
        '        good for          tolerances of ±0.060 mm or wider (10:1), ±0.024 mm at 4:1',
        "        effective radius  2.984 mm in this direction at this feed; 2.980 mm used (the profile's)",
        '        stops             0.015 mm after the trip; 2.500 mm allowed (overtravel 5.000 mm ÷ 2)',
        '        uncertainty       standard, by where it comes from',
        '          repeatability         1.0 µm  normal       probe.repeatability, profile',
        '          together              1.0 µm  ν = ∞',
      ].join('\n'),
    );
    expect(out).toContain(
      [
        '    10  G54.x',
        '        made of           +0.5 × X of line 4 (G38.2 towards X+)',
        '                          +0.5 × X of line 7 (G38.2 towards X−)',
        '                          no tip diameter',
        '        expected error    5.4 µm = bias −4.0 µm, and ±1.4 µm (U, k = 1.96)',
      ].join('\n'),
    );
  });

  test('a value that is left in a parameter is a result', async () => {
    const measured = bore.replace('G10 L2 P1', '#<size> = [#<right> - #<left> + 6]\nG10 L2 P1');
    const situation = { ...files, '/shop/bore.ngc': measured };
    const { out } = await ran(['error', 'bore.ngc', '--tolerance', '0.1'], { files: situation });
    expect(out).toContain(
      [
        'Results in parameters',
        '',
        '    10  #<size>',
        '        made of           +1 × X of line 4 (G38.2 towards X+)',
        '                          −1 × X of line 7 (G38.2 towards X−)',
        '                          +1 × diameter 6.000 mm (the actual diameter of the tip)',
        // D − 2·r0 = 6 − 5.96: free of the odd lobe (error-model.md, section 4); U = 1.96·√2 µm.
        '        expected error    42.8 µm = bias +40.0 µm, and ±2.8 µm (U, k = 1.96)',
      ].join('\n'),
    );
    expect(out).toContain('tolerance         ±100 µm: can only be decided with a guard band');
    const { file } = await json('bore.ngc', situation);
    expect(file.results).toMatchObject([{ line: 10, target: '#<size>', diameterCoefficient: 1 }]);
    expect(file.results[0].bias).toBeCloseTo(0.04, 9);
    expect((await json('bore.ngc')).file.results).toEqual([]);
  });

  test('a result is there in the macro family too, and one that is only read on is none', async () => {
    const macro = 'O1\nG21 G90 G94 G54\nG0 X0 Y0\nG31 X20. F60.\n#101=#5061\nG0 X0\n#102=[#101+2.98]\nM30\n';
    const { file } = await json('edge.nc', { ...files, '/shop/edge.nc': macro });
    expect(file.results.map(({ target }: { target: string }) => target)).toEqual(['#102']);
    expect(file.results[0].bias).toBeCloseTo(-0.004, 9);
  });

  test('an equal budget is named, not shown again', async () => {
    const { out } = await ran(['error', 'bore.ngc'], { files });
    expect(out).toContain('uncertainty       as for line 4 towards X+');
  });

  test('an inch program is spoken of in inches', async () => {
    const inch = bore.replace('G21', 'G20').replace('F60', 'F2.3622047');
    const { out } = await ran(['error', 'bore.ngc'], { files: { ...files, '/shop/bore.ngc': inch } });
    expect(out).toContain('     4  G38.2 towards X+ at 2.36 in/min\n');
    expect(out).toContain('expected error    0.00023 in = bias −0.00016 in, and ±0.00008 in (U, k = 1.96)');
  });

  test('without a calibration it says that everything is predicted', async () => {
    const { out } = await ran(['error', 'bore.ngc'], { files: { '/shop/bore.ngc': bore } });
    expect(out).toContain('built-in values, no profile found: predicted, not calibrated\n');
    expect(out).toContain('Predicted, not calibrated: only the bending of the stem');
  });

  test('what is not known is said at its place, with the reason', async () => {
    const open = 'G21 G90 G94\nG0 X#<_from_elsewhere> Y#<_too>\nG38.2 X#<_target> Y#<_other> F60\nM2\n';
    const { out } = await ran(['error', 'open.ngc'], { files: { ...files, '/shop/open.ngc': open } });
    expect(out).toContain('     3  G38.2 in an unknown direction at 60 mm/min\n');
    expect(out).toContain(
      'expected error    not known yet: which way it goes depends on what the text does not show.',
    );
  });

  test('a stop beyond what the probe allows stands out', async () => {
    const fast = bore.replace('F60', 'F1500');
    const { out } = await ran(['error', 'bore.ngc'], { files: { ...files, '/shop/bore.ngc': fast } });
    // 25·0.01 + 25²/200
    expect(out).toContain('stops             3.375 mm after the trip: too far; 2.500 mm allowed');
  });

  test('nothing to show is said, not left blank', async () => {
    const { out } = await ran(['error', 'plain.ngc'], { files: { '/shop/plain.ngc': 'G21\nG0 X5\nM2\n' } });
    expect(out).toContain('No touch was found in this program.');
    expect(out).toContain('No datum is written from a touch, as far as was followed.');
  });
});

describe('what cannot be read ends with 2 and names it', () => {
  test.each([
    ['missing.ngc', 'missing.ngc: no such file or folder'],
    ['/shop', '/shop: a folder; name one program.'],
    ['bytes.ngc', 'bytes.ngc: binary, not a program'],
  ])('%s', async (name, message) => {
    const result = await ran(['error', name], { files: { ...files, '/shop/bytes.ngc': '\u0000\u0001' } });
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain(message);
  });
});
