import type { Datum, Following, PlaceLeftOut } from '../analysis/model.ts';
import { axisOf } from './compensation.ts';
import { touchesOf } from './compensationMissing.ts';
import { cornersOffFace } from './cornerOffFace.ts';
import { originInCoordinate } from './originInCoordinate.ts';
import type { Report, Rule } from './rule.ts';

export const offsetWriteMismatch: Rule = {
  id: 'offset-write-mismatch',
  severity: 'warning',
  title: 'a value that is no place in the work offset it is written to',
  what: 'A work offset is written with a value that does not follow the part: a coordinate of the work where G10 L2 and the offset parameters want one of the machine, a coordinate counted from another work offset than it was measured in, a distance where a place is wanted, a sum of coordinates in which a sign or a half is wrong, a plain number given to G10 L2 where the axis stands at a place that touches gave and nothing else came of them, a corner of two sloping faces of which one is not taken where the other meets it, an origin added to what G10 L20 is given, or an origin read, or a P written, by a number that is of no work offset. Slopes, roots and quotients of touches are judged too, where every touch is placed by where the tip stood at the start.',
  why: 'G10 L2 and #5221… hold where the work zero lies on the machine. A latched coordinate counts from the zero in force: without that zero added the new one comes to lie anywhere, and the next move goes there. A sum of two coordinates that nobody halved, or one with the wrong sign, moves the zero twice as far as the part, or the other way.',
  instead:
    'Add the origin that the touch was measured from (#5221 for G54 and X, #5241 for G55 …), or write G10 L20 with what the axis should read where it stands now. A middle is half the sum of its two sides.',
  source:
    'that G10 L2 sets the origin in machine coordinates: NISTIR 6556, 3.5.5; that a sum of coordinates is a place only where their coefficients add up to 1: affine geometry; common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94 G54
G0 Z5
G38.2 Z-10 F40
G0 Z5
G10 L2 P1 Z#5063
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94 G54
G0 Y-20.
G31 Y20. F40.
IF[#5062GT19.9]GOTO9
#101=#5062
G0 Y-20.
G10 L2 P2 Y[#5242+#101+1.993]
M30
N9 #3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94 G54
G0 Z5
G38.2 Z-10 F40
G0 Z5
G10 L2 P1 Z[#5223 + #5063]
M2
`,
    },
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94 G54
G0 Z5
G38.2 Z-10 F40
G0 Z5
G10 L20 P1 Z[5 - #5063]
M2
`,
    },
  ],
  *check(context) {
    const { analysis } = context;
    for (const datum of analysis.datums) {
      const message = datum.target.startsWith('none.')
        ? noOffset
        : ((datum.following && faultOf(datum, datum.following)) ??
          originInCoordinate(datum, analysis.source));
      if (message) yield { message, place: datum.place, related: touchesOf(datum) };
    }
    yield* cornersOffFace(context);
    for (const left of analysis.placesLeftOut) if (isAllThatComes(left)) yield placeReport(left);
  },
};

/** Nothing else in the program makes a datum, an output or a result of those touches. */
function isAllThatComes({ touches }: PlaceLeftOut): boolean {
  return touches.length > 0 && touches.every(({ reaches }) => reaches.length === 0);
}

function placeReport({ place, axis, touches }: PlaceLeftOut): Report {
  const name = axis.toUpperCase();
  return {
    message: `G10 L2 puts the work zero to this coordinate of the machine, wherever ${name} stands. It stands where the touches took it, and nothing is made of that place: G10 L20 gives it this coordinate.`,
    place,
    related: touches.flatMap((touch) =>
      touch.file === null ? [{ message: 'took the axis there', place: touch.place }] : [],
    ),
  };
}

const rounding = 1e-6;
const noOffset =
  'P is the number of no work offset here, whichever is in force: the control stops with an alarm, or writes one that nobody uses.';

function faultOf(datum: Datum, { share, across, origin, measuredIn, form }: Following): string | null {
  const { target } = datum;
  const axis = axisOf(datum);
  if (Math.abs(across) > rounding)
    return `${target} does not follow the part: it moves along ${axis} where that and the tip lie further along ${axis === 'X' ? 'Y' : 'X'}. A sign is wrong, or a coordinate of the other axis.`;
  if (Math.abs(share) > rounding && Math.abs(share - 1) > rounding)
    return `${target} does not follow the part: where that lies 1 mm further to +${axis}, this value puts it ${along(share, axis)}. A sign or a half is wrong.`;
  if (Math.abs(share) <= rounding && origin === 'none')
    return `${what(form)} wants a coordinate of the machine, and this is a distance between two: ${target} stays the same wherever the part lies.`;
  if (origin === 'beside' && Math.abs(share) > rounding)
    return `The old origin is read here by a number that is of no work offset, whichever is in force: ${target} comes out wrong by that origin.`;
  if (Math.abs(share) <= rounding || measuredIn === null) return null;
  if (origin === 'other')
    return `The touch was measured from the zero of ${measuredIn}, and this value counts from another origin: ${target} comes out wrong by the difference of the two.`;
  const isSame = target.startsWith(`${measuredIn}.`) || target.startsWith('active.');
  if (origin !== 'none' || !isSame) return null;
  return `${what(form)} wants a coordinate of the machine, and this is one of the work, counted from the ${axis} origin in force: ${target} comes out wrong by that origin.`;
}

function what(form: Following['form']): string {
  return form === 'parameter' ? 'This parameter' : 'G10 L2';
}

function along(share: number, axis: string): string {
  const size = Math.round(Math.abs(share) * 1000) / 1000;
  return `${size} mm further to ${share > 0 ? '+' : '−'}${axis}`;
}
