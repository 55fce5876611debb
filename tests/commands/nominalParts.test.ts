import { expect, test } from 'vitest';
import { ran } from './fakeTerminal.ts';
import { rehearsedAsBrought } from './setupOut.ts';

/** Forms that the touches alone say little about: small coordinates, angles, walls that stand turned. */
const settings = [
  ['surface', 'direction=angle', 'angle=20', 'becomes=7.5'],
  ['surface', 'direction=angle', 'angle=-135'],
  ['surface', 'direction=angle', 'angle=90', 'becomes=0.01'],
  ['surface', 'direction=angle', 'angle=5', 'workOffset=G56'],
  ['surface', 'direction=X-', 'becomes=0.5'],
  ['surface', 'direction=Y+', 'becomes=-25.4', 'workOffset=G55'],
  ['surface', 'direction=Z-', 'becomes=0.25'],
  ['slot', 'across=X', 'becomes=0.2'],
  ['slot', 'across=Y', 'becomes=-3'],
  ['slot', 'across=angle', 'angle=33', 'becomes=1.5'],
  ['slot', 'across=angle', 'angle=-70'],
  ['web', 'across=X', 'becomes=0.2'],
  ['web', 'across=Y', 'becomes=-3'],
  ['web', 'across=angle', 'angle=33', 'becomes=1.5'],
  ['web', 'across=angle', 'angle=-70', 'workOffset=G57'],
  ['bore', 'becomesX=0.2', 'becomesY=-0.2'],
  ['boss', 'becomesX=100', 'becomesY=0.05'],
  ['outside-corner', 'becomesX=0.5', 'becomesY=-12'],
  ['bore', 'touches=3'],
  ['bore', 'touches=5', 'passes=one'],
  ['boss', 'touches=6', 'firstAngle=20'],
  ['reversal-centre', 'feature=boss', 'becomesX=3'],
  ['rotary-centre', 'positions=3', 'becomesY=-2'],
  ['rotary-centre', 'feature=boss'],
] as const;
const dialects = ['rs274ngc', 'macro'] as const;
const cases = settings.flatMap(([name, ...set]) =>
  dialects.map((dialect) => [name, dialect, ...set] as const),
);

test.each(cases)(
  '%s in %s, %s %s %s: right on the part that it declares, whatever goes wrong',
  async (...each) => {
    const [name, dialect, ...set] = each;
    const argv = [name, '--dialect', dialect, '--set', ...set.flatMap((value) => value ?? [])];
    const { verdict, outcome, story, worstErrors } = await rehearsedAsBrought(argv);
    expect({ verdict, outcome, story }).toMatchObject({ verdict: 'pass', outcome: 'datum-right' });
    expect(worstErrors).toBeLessThan(0.03);
  },
);

test.each([['direction=angle', 'angle=40'], ['direction=Y-'], ['direction=Z-']])(
  'a coordinate that the program gets wrong by 0.1 mm is told: %s',
  async (...set) => {
    const written = await ran([
      'generate',
      'surface',
      '--set',
      ...set,
      '-o',
      'it.ngc',
      '--setup-out',
      'it.json',
    ]);
    const setup = JSON.parse(String(written.file('/shop/it.json')).replace(/^ *\/\/.*$/gm, ''));
    const [key = ''] = Object.keys(setup.expect);
    setup.expect[key].value += 0.1;
    const { status, out } = await ran(['rehearse', 'it.ngc', '--setup', 'it.json', '--format', 'json'], {
      files: { '/shop/it.ngc': String(written.file('/shop/it.ngc')), '/shop/it.json': JSON.stringify(setup) },
    });
    expect(status).toBe(1);
    expect(JSON.parse(out).undisturbed).toMatchObject({ outcome: 'wrong-datum' });
  },
);

test.each(
  [
    ['ring-calibration', 'reference=ring', 'touches=7'],
    ['ring-calibration', 'reference=plug', 'spindle=both'],
    ['calibration-check', 'reference=ring'],
    ['calibration-check', 'reference=plug'],
    ['calibration-check', 'reference=block', 'across=Y'],
    ['plane-tilt', 'touches=9'],
    ['edge-angle', 'direction=angle', 'angle=-140', 'result=report'],
    ['length-reference', 'gauge=20'],
    ['tip-runout', 'direction=Y-'],
  ].flatMap(([name = '', ...set]) => dialects.map((dialect) => [name, dialect, ...set])),
)('%s in %s, %s %s, which sets no datum: no fault does harm', async (name, dialect, ...set) => {
  const argv = [name ?? '', '--dialect', dialect ?? '', '--set', ...set];
  const { verdict, outcome, story, best } = await rehearsedAsBrought(argv);
  expect({ verdict, outcome, story }).toMatchObject({ verdict: 'pass', outcome: best });
});
