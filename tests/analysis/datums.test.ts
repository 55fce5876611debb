import { describe, expect, test } from 'vitest';
import { datumError } from '../../server/analysis/error.ts';
import { readProfile } from '../../server/profile/profile.ts';
import { analysed, datumsOf } from './analysed.ts';

const calibrated = readProfile(
  `{ "probe": { "tipDiameter": 3, "calibration": { "effectiveDiameter": 2.978, "expandedUncertainty": 0.002, "feed": 40,
    "harmonics": [{ "order": 3, "cosine": 0.003, "sine": 0 }] } } }`,
  { path: null, ruleIds: [] },
).profile;
if (!calibrated) throw new Error('the profile of this test can not be read');

describe('a datum is an affine form over touches and the diameter', () => {
  test('the centre of a bore: half of each side, no diameter', () => {
    const a = analysed(`G21 G90 G94
G0 X0 Y0
G38.2 X20 F100
#<x1> = #5061
G0 X0
G38.2 X-20
#<x2> = #5061
G0 X[[#<x1>+#<x2>]/2]
G10 L20 P1 X0
M2`);
    expect(datumsOf(a)).toEqual(['G54.x = 0.5*m3x 0.5*m6x']);
  });

  test('the same by polar positions: back to the origin from wherever the touch left the tool', () => {
    const a = analysed(
      'G21 G90 G94 G17\nG0 X0 Y0\nG38.2 @20 ^0 F100\n#1=#5061\nG0 @0\nG38.2 @20 ^180\n#2=#5061\nG0 X[[#1+#2]/2]\nG10 L20 P1 X0\nM2',
    );
    expect(datumsOf(a)).toEqual(['G54.x = 0.5*m3x 0.5*m6x']);
    expect(
      a.touches.map(({ direction }) => direction?.map((part) => Math.round(part * 1e9) / 1e9 + 0)),
    ).toEqual([
      [1, 0, 0],
      [-1, 0, 0],
    ]);
  });

  test('its error is free of the effective diameter and keeps the third lobe (error-model.md, section 4)', () => {
    const a = analysed(
      'G21 G91 G94 G54\nG38.2 X20 F40\n#1=#5061\nG0 X-15\nG38.2 X-30\n#2=#5061\nG0 X5\nG90\nG10 L2 P1 X[[#1+#2]/2]\nM2',
      'rs274ngc',
      calibrated,
    );
    const [datum] = a.datums;
    expect(datum && datumError(datum, calibrated)?.bias).toBeCloseTo(-0.003, 12);
  });

  test('an edge: the touch and half the diameter, by a literal, a name, the tool table', () => {
    const edge = (radius: string, before = '') =>
      datumsOf(
        analysed(
          `G21 G91 G94\n${before}\nG38.2 X10 F40\nG90\nG10 L2 P1 X[#5221 + #5061 + ${radius}]\nG91 G0 X-3\nM2`,
          'rs274ngc',
          calibrated,
        ),
      );
    expect(edge('1.489')).toEqual(['G54.x = 1*m3x 0.5*D(effective)']);
    expect(edge('2.978/2')).toEqual(['G54.x = 1*m3x 0.5*D(effective)']);
    expect(edge('#<tip>/2', '#<tip> = 2.978')).toEqual(['G54.x = 1*m3x 0.5*D(effective)']);
    expect(edge('#5410/2')).toEqual(['G54.x = 1*m3x 0.5*D(tool-table)']);
    expect(edge('0.25*2.978')).toEqual(['G54.x = 1*m3x 0.25*D(effective)']);
    expect(edge('2.978/8')).toEqual(['G54.x = 1*m3x 0.125*D(effective)']);
    expect(edge('2*1.489')).toEqual(['G54.x = 1*m3x 1*D(effective)']);
    expect(edge('2*[0.5*-#<tip>]', '#<tip> = 1.489')).toEqual(['G54.x = 1*m3x -0.5*D(effective)']);
    expect(edge('1.5')).toEqual(['G54.x = 1*m3x 0.5*D(nominal)']);
    expect(edge('2*[0.4+1.1]/1')).toEqual(['G54.x = 1*m3x 1*D(nominal)']);
    expect(edge('2*3.5')).toEqual(['G54.x = 1*m3x']);
    expect(edge('7')).toEqual(['G54.x = 1*m3x']);
  });

  test('in an inch program the literal is read in inches', () => {
    const a = analysed(
      'G20 G91 G94\nG38.2 X1 F2\n#1=[#5061+0.0586221]\nG0 X-0.2\nG90\nG10 L2 P1 X#1\nM2',
      'rs274ngc',
      calibrated,
    );
    expect(datumsOf(a)).toEqual(['G54.x = 1*m2x 0.5*D(effective)']);
  });

  test('the position where the axis stopped is told apart from the latched one', () => {
    const a = analysed('G21 G91 G94\nG38.2 Z-10 F40\nG10 L20 P1 Z0\nG0 Z5\nM2');
    expect(datumsOf(a)).toEqual(['G54.z = 1*p2z']);
  });

  test('the radius as what the axis is told that it stands at; in Z the number is a height', () => {
    const set = (words: string) =>
      datumsOf(analysed(`G21 G91 G94\n${words}\nG0 X-3\nM2`, 'rs274ngc', calibrated));
    expect(set('G38.2 X10 F40\nG10 L20 P1 X-1.489')).toEqual(['G54.x = 1*p2x 0.5*D(effective)']);
    expect(set('G38.2 X10 F40\nG92 X-1.5')).toEqual(['G92.x = 1*p2x 0.5*D(nominal)']);
    expect(set('G38.2 X10 F40\nG92 X1.489')).toEqual(['G92.x = 1*p2x -0.5*D(effective)']);
    expect(set('G38.2 X10 F40\nG10 L20 P1 X-20')).toEqual(['G54.x = 1*p2x']);
    expect(set('G38.2 X10 F40\nG10 L20 P1 X[0.25*2.978]')).toEqual(['G54.x = 1*p2x -0.25*D(effective)']);
    expect(set('#1=2.978\nG38.2 X10 F40\nG92 X[-#1/2]')).toEqual(['G92.x = 1*p3x 0.5*D(effective)']);
    expect(set('G38.2 X10 F40\nG10 L20 P1 X[2*-2.978]')).toEqual(['G54.x = 1*p2x 2*D(effective)']);
    expect(set('G38.2 X10 F40\nG10 L20 P1 X[2*10]')).toEqual(['G54.x = 1*p2x']);
    expect(set('G38.2 Z-10 F40\nG10 L20 P1 Z1.5')).toEqual(['G54.z = 1*p2z']);
  });

  test('a product in the axis word of the macro family', () => {
    const set = (words: string) =>
      datumsOf(analysed(`G21 G91 G94\n${words}\nG0 X-3\nM30`, 'macro', calibrated));
    expect(set('G31 X10 F40\nG92 X[0.25*2.978]')).toEqual(['G92.x = 1*p2x -0.25*D(effective)']);
    expect(set('#101=2.978\nG31 X10 F40\nG92 X[#101*-0.25]')).toEqual(['G92.x = 1*p3x 0.25*D(effective)']);
    expect(set('G31 X10 F40\nG92 X[2.978/2]')).toEqual(['G92.x = 1*p2x -0.5*D(effective)']);
  });

  test('G92, and an offset written as a parameter', () => {
    expect(datumsOf(analysed('G21 G91 G94\nG38.2 Z-10 F40\nG0 Z5\nG92 Z[#<_z>-#5063]\nM2'))).toEqual([
      'G92.z = 1*m2z',
    ]);
    expect(datumsOf(analysed('O1\nG21 G91 G94\nG31 Z-10. F40.\n#5223=#5063\nG0 Z5.\nM30', 'macro'))).toEqual([
      'G54.z = 1*m3z',
    ]);
  });

  test('a call gives its result to the caller, each call its own touch', () => {
    const a = analysed(`o<side> sub
G91 G38.2 X[#1] F50
#<_met> = #5061
G0 X[0-#1/10]
G90
o<side> endsub
G21 G90 G94
o<side> call [20]
#3 = #<_met>
o<side> call [-40]
G10 L2 P2 X[[#3+#<_met>]/2]
M2`);
    expect(datumsOf(a)).toEqual(['G55.x = 0.5*m2x 0.5*m2x']);
    expect(a.datums[0]?.terms?.map((t) => t.sign)).toEqual([1, -1]);
  });

  test('paths that agree keep the form, paths that differ say so', () => {
    const branch = (other: string) =>
      datumsOf(
        analysed(
          `G21 G91 G94\nG38.2 X10 F40\no1 if [#9 GT 1]\n#<e>=[#5061+2]\no1 else\n#<e>=[${other}]\no1 endif\nG0 X-5\nG90\nG10 L2 P1 X#<e>\nM2`,
        ),
      );
    expect(branch('#5061+7')).toEqual(['G54.x: paths that differ meet here']);
  });

  test('a loop and a product say why nothing is known', () => {
    const loop =
      'G21 G91 G94\no1 while [#1 LT 3]\nG38.2 Z-5 F40\n#2 = [#2 + #5063]\nG0 Z5\n#1 = [#1+1]\no1 endwhile\nG10 L2 P1 Z[#2/3]\nM2';
    expect(datumsOf(analysed(loop))).toEqual(['G54.z: paths that differ meet here']);
    const product = 'G21 G91 G94\nG38.2 X5 F40\n#1=[#5061*#5061]\nG0 X-5\nG10 L2 P1 X#1\nM2';
    expect(datumsOf(analysed(product))).toEqual([
      'G54.x: it is not a sum of touches: a product, a root or a function of them',
    ]);
  });
});

describe('what the file does not show leaves the bias unknown where it may hold the compensation', () => {
  const errors = (words: string, dialect: 'rs274ngc' | 'macro' = 'rs274ngc') => {
    const touch = dialect === 'macro' ? 'G31' : 'G38.2';
    const text = `G21 G90 G94 G54\nG0 X0 Y0 Z20\n${touch} X10 F40\n#30=#5061\nG0 X0\n${words}\nM30`;
    return analysed(text, dialect, calibrated).datums.map((datum) => datumError(datum, calibrated));
  };

  test.each([
    ['an input', 'G10 L2 P1 X[#30+#1]'],
    ['a product of two', 'G10 L2 P1 X[#30+#1*#2]'],
    ['a product that a parameter kept', '#3=[#1*#2]\n#4=[#30+#3]\nG10 L2 P1 X#4'],
    ['a product kept, halved and taken off', '#3=[#1*#2]\n#5=[#3/2]\nG10 L2 P1 X[#30-#5]'],
    ['a quotient of two', '#3=[#1/#2]\nG10 L2 P1 X[#30+#3]'],
    ['a function of one', '#3=ABS[#1]\nG10 L2 P1 X[#30+#3]'],
    ['a product beside an origin', '#3=[#1*#2]\nG10 L2 P1 X[#30+#5221+#3]'],
    ['a wrong compensation beside it', '#3=[#1*#2]\nG10 L2 P1 X[#30+2.978+#3]'],
  ])('%s', (_, words) => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      const [error] = errors(words, dialect);
      expect(error).toMatchObject({ bias: null, expectedError: null });
      expect(error?.notIncluded).toContain('input');
      // The touch itself is as uncertain as before.
      expect(error?.expandedUncertainty).toBeGreaterThan(0.01);
    }
  });

  test.each([
    ['the compensation is right without it', 'G10 L2 P1 X[#30+2.978/2+#1*#2]'],
    ['an origin alone is added', 'G10 L2 P1 X[#30+#5221]'],
    ['a number of the file is added', '#1=4\n#2=5\n#3=[#1*#2]\nG10 L2 P1 X[#30+#3]'],
    ['there is nothing to compensate', 'G38.2 Z0 F40\n#31=#5063\nG0 Z20\nG10 L2 P1 Z[#31+#1*#2]'],
    ['the radii cancel', 'G38.2 X-10 F40\n#31=#5061\nG0 X0\nG10 L2 P1 X[[#30+#31]/2+#1]'],
  ])('not where %s', (_, words) => {
    const [error] = errors(words);
    expect(error?.bias).not.toBeNull();
    expect(error?.notIncluded).not.toContain('input');
  });
});
