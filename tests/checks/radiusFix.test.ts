import { expect, test } from 'vitest';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { applied, checkText } from './marked.ts';
import { edgeTouched, shopProfile } from './shopProfile.ts';

// Wanted: c_D = ½·Σ c_i·n_i of the origin (error-model.md, section 4), 1.985 mm for an edge met towards +X.
const macroTouched =
  'O1\nG21 G90 G94 G54\nG0 X0. Y0.\nG31 X-20. F40.\nIF [ABS[#5061+20.] LT 0.01] THEN #3000=1 (MISSED)\n#100=#5061\nG0 X0.\n';

const program = (write: string, dialect: DialectName) =>
  dialect === 'macro'
    ? `${macroTouched}${write}\nM30\n`
    : `${edgeTouched}#100 = #5061\nG0 X0\n${write}\nM2\n`;

function missing(text: string, dialect: DialectName, profile = shopProfile) {
  return checkText(text, { dialect, profile }).findings.filter(({ rule }) => rule === 'compensation-missing');
}

const inVariable = JSON.stringify({ ...JSON.parse(shopProfile), effectiveDiameterParameter: '#520' });

test.each<[string, string, DialectName, string?]>([
  ['G10 L2 P1 X[#5221 + #100]', 'G10 L2 P1 X[#5221 + #100 + 1.985]', 'rs274ngc'],
  ['#5221 = [#5221 + #100]', '#5221 = [#5221 + #100 + 1.985]', 'rs274ngc'],
  ['#1 = [#5221 + #100]\nG10 L2 P1 X#1', '#1 = [#5221 + #100]\nG10 L2 P1 X[#1 + 1.985]', 'rs274ngc'],
  ['G10 L2 P1 X[[#5221] + [#100]]', 'G10 L2 P1 X[[#5221] + [#100] + 1.985]', 'rs274ngc'],
  ['G10 L20 P1 X[5 - #100]', 'G10 L20 P1 X[5 - #100 - 1.985]', 'rs274ngc'],
  ['G92 X[5 - #100]\nG92.1', 'G92 X[5 - #100 - 1.985]\nG92.1', 'rs274ngc'],
  ['G10 L2 P1 X[#5221 + #100] Y0', 'G10 L2 P1 X[#5221 + #100 + #520 / 2] Y0', 'rs274ngc', inVariable],
  ['#5221=#5221+#100', '#5221=#5221+#100-1.985', 'macro'],
  ['G90#5221=[#5221+#100](DATUM)', 'G90#5221=[#5221+#100-1.985](DATUM)', 'macro'],
  ['G10L20P1X[#5221+#100]', 'G10L20P1X[#5221+#100-1.985]', 'macro'],
  ['G92X[5.-#100]', 'G92X[5.-#100+1.985]', 'macro'],
  ['G10 L2 P1 X[#5221+#100]', 'G10 L2 P1 X[#5221+#100-#520/2]', 'macro', inVariable],
])('the radius that %s lacks is put in', (write, wanted, dialect, profile = shopProfile) => {
  const text = program(write, dialect);
  const [finding, ...others] = missing(text, dialect, profile);
  expect(others).toEqual([]);
  const [fix] = finding?.fixes ?? [];
  expect(fix?.changesMotion).toBe(true);
  const mended = applied(text, fix?.edits ?? []);
  expect(mended).toBe(program(wanted, dialect));
  const before = checkText(text, { dialect, profile }).findings.map(({ rule }) => rule);
  expect(
    checkText(mended, { dialect, profile })
      .findings.map(({ rule }) => rule)
      .sort(),
  ).toEqual(before.filter((rule) => rule !== 'compensation-missing').sort());
});

test('in inches it is the number in inches', () => {
  const text = 'G20 G90 G94 G54\nG0 X0 Y0\nG38.2 X1 F1.5\nG0 X0\nG10 L2 P1 X[#5221 + #5061]\nM2\n';
  const [finding] = missing(text, 'rs274ngc');
  expect(applied(text, finding?.fixes[0]?.edits ?? [])).toContain('X[#5221 + #5061 + 0.0781496]');
});

test.each([
  [
    'two calls that touch from either side',
    'o<edge> sub\n  G38.2 X#1 F40\n  #<m> = #5061\n  G0 X0\n  G10 L2 P1 X[#5221 + #<m>]\no<edge> endsub\nG21 G90 G94 G54\nG0 X0 Y0\no<edge> call [20]\nG55\no<edge> call [-20]\nM2\n',
    shopProfile,
  ],
  ['no calibration', `${edgeTouched}G0 X0\nG10 L2 P1 X[#5221 + #5061]\nM2\n`, '{"probe":{"tipDiameter":4}}'],
  [
    'units by path',
    `o1 if [#<_inch>]\n  G20\no1 else\n  G21\no1 endif\nG90 G94 G54\nG0 X0 Y0\nG38.2 X2 F40\nG0 X0\nG10 L2 P1 X[#5221 + #5061]\nM2\n`,
    shopProfile,
  ],
])('none is offered: %s', (_, text, profile) => {
  const found = missing(text, 'rs274ngc', profile);
  expect(found.length).toBeGreaterThan(0);
  expect(found.flatMap(({ fixes }) => fixes)).toEqual([]);
});
