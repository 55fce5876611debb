import type { PositionTest } from '../analysis/model.ts';
import { lengthText, readerUnit, type Unit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const exactPositionTest: Rule = {
  id: 'exact-position-test',
  severity: 'warning',
  title: 'positions are compared without a tolerance',
  what: `A test compares where a touch latched, or where the axis came to rest after it, with something

- for equality (EQ, NE);
- within a distance that is no greater than the resolution of the control (\`machine.resolution\`), where one touch alone is asked;
- on one side of the very end of the travel: \`#5063 GT -10\` after a search to Z-10.

Where the distance is not 0 and the resolution is the built-in one, it is information only.`,
  why: 'Positions are computed and rounded: two that stand for the same place differ in the last digit as often as not. A search that met nothing ends one step beside its target and passes for a touch, or a good touch raises an alarm.',
  instead:
    'Compare the distance with a tolerance well above the resolution and well below what matters: `ABS[#5063 + 10] LT 0.05`.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
G38.3 Z-10 F40
G0 Z5
o1 if [#5063 EQ -10]
  (ABORT, no contact)
o1 endif
G10 L2 P1 Z[#5223 + #5063]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 X0. Y0. Z5.
G31 Z-10. F40.
G0 Z5.
IF[#5063LE-10.]GOTO90
#5223=#5223+#5063
M30
N90 #3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
G38.3 Z-10 F40
G0 Z5
o1 if [ABS[#5063 + 10] LT 0.05]
  (ABORT, no contact)
o1 endif
G10 L2 P1 Z[#5223 + #5063]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 X0. Y0. Z5.
G31 Z-10. F40.
G0 Z5.
IF[#5063LE-9.95]GOTO90
#5223=#5223+#5063
M30
N90 #3000=1(NO CONTACT)
`,
    },
  ],
  *check(context) {
    const told = new Set<string>();
    for (const test of context.analysis.positionTests) {
      const key = `${test.place.line}:${test.place.start}`;
      if (told.has(key) || !isExact(test, context)) continue;
      told.add(key);
      yield report(test, context);
    }
  },
};

function isExact({ form, margin, towards, axis }: PositionTest, { profile }: CheckContext): boolean {
  if (form === 'equal') return true;
  if (margin === null || form === 'other') return false;
  if (form === 'side' && towards === null) return false;
  const step = isRotary(axis) ? 0 : profile.machine.resolution;
  return Math.abs(margin) <= step + 1e-9;
}

function isRotary(axis: string): boolean {
  return 'abc'.includes(axis);
}

function report(test: PositionTest, { profile }: CheckContext): Report {
  const { touch, place, form, margin } = test;
  const unit = readerUnit(touch.modes, profile);
  const isBuiltIn = profile.source('machine.resolution') === 'built-in';
  return {
    message: wording(test, profile.machine.resolution, isBuiltIn, unit),
    place,
    related: touch.file === null ? [{ message: 'the touch that it tests', place: touch.place }] : [],
    ...(form !== 'equal' && isBuiltIn && Math.abs(margin ?? 0) > 1e-9 ? { severity: 'info' as const } : {}),
  };
}

function wording({ form, margin, axis }: PositionTest, step: number, isBuiltIn: boolean, unit: Unit): string {
  const name = axis.toUpperCase();
  const rounding = isRotary(axis)
    ? 'the last digit'
    : `steps of ${lengthText(step, unit)}${isBuiltIn ? ' (built-in)' : ''}`;
  if (form === 'equal')
    return `Positions in ${name} are compared for equality, but the control rounds them to ${rounding}: a search that meets nothing may end one step beside its target and pass for a touch, or a good touch be taken for a miss.`;
  if (form === 'distance')
    return `A tolerance of ${lengthText(margin ?? 0, unit)} is no more than the rounding of a position, ${rounding}: a search that meets nothing may end outside of it and pass for a touch.`;
  return `A search that meets nothing ends at the very ${name} that this test compares with: the last digit, rounded to ${rounding}, decides whether the miss passes for a touch.`;
}
