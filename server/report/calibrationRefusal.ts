import type { CalibrationRefusal } from '../probe/calibration/calibrate.ts';
import type { FlatRefusal } from '../probe/calibration/flat.ts';
import type { Reading, SizeCure } from '../probe/calibration/implausible.ts';
import type { Reference } from '../probe/calibration/touches.ts';
import { degrees } from '../probe/calibration/touches.ts';
import type { Asking } from './asking.ts';
import { counted } from './counted.ts';
import { linesText } from './countWords.ts';
import type { Quantities } from './quantities.ts';

/** Why touches give no calibration, in words, and what to look at; a line each. */
export function refusalText(
  refusal: CalibrationRefusal | FlatRefusal | { readonly kind: 'upwards' },
  reference: Reference<'ring' | 'plug' | 'gap' | 'block' | 'sphere'>,
  show: Quantities,
  asking: Asking,
): readonly string[] {
  switch (refusal.kind) {
    case 'too-few':
      return [
        `${counted(refusal.touches, 'touch', 'touches')}, and at least ${refusal.needed} are needed. Two opposite touches on a block or in a gap give one axis: ${asking.referenceKind('block or gap')}.`,
      ];
    case 'one-sided':
      if (reference.kind === 'sphere')
        return [
          'the touches stand on one side of the sphere: radius and centre cannot be told apart. Touch the top and all around the equator.',
        ];
      return [
        `the touches stand on one side of the ${reference.kind}: radius and centre cannot be told apart (condition number ${Number.isFinite(refusal.condition) ? refusal.condition.toFixed(0) : 'without bound'}, at most 20). Spread the directions over the whole turn.`,
      ];
    case 'collinear':
      if (reference.kind === 'sphere')
        return [
          'the stylus centres stand in one plane, and no one sphere goes through them. Touch the top and the sides; check x, y and z.',
        ];
      return [
        'the stylus centres stand on one line or in one place, and no circle goes through them. Touch in directions all around; check the columns x and y.',
      ];
    case 'directions':
      return [readingText(refusal.reading)];
    case 'other-kind':
      return [otherKind(reference.kind, asking)];
    case 'upwards':
      return [
        'the elevations fit the coordinates with the other sign: they are those of the approach, so straight down is −90.',
      ];
    case 'rows':
      return refusal.rows.map(
        ({ row, seen }) =>
          `line ${row}: the stylus stood at ${degrees(seen).toFixed(0)}° as seen from the middle of the others, not in the direction that is named. Mistyped?`,
      );
    case 'no-sense':
      return [
        'directions and coordinates do not belong together in any reading that is known here. Check the columns direction, x and y.',
      ];
    case 'size':
      return [sizeText(refusal, reference, show, asking)];
    case 'several-axes':
      return [
        refusal.radians
          ? 'the directions are half a turn apart only when read as radians. Write degrees.'
          : `${linesText(refusal.rows)}: not along the axis of the first touch. A ${reference.kind} calibrates one axis; keep another axis in a file of its own.`,
      ];
    case 'one-face':
      return [`touches from both sides are needed: one direction and its opposite, 180° apart.`];
    case 'mixed':
      return [
        `the touches of a ${reference.kind} have to be made at one ${refusal.what === 'feed' ? 'feed' : 'spindle angle'}; the column ${refusal.what} has several.`,
      ];
  }
}

function readingText(reading: Reading): string {
  const fits = 'the directions fit the coordinates when';
  switch (reading.as) {
    case 'radians':
      return `${fits} they are read as radians. Write degrees (0 to 360, X+ = 0).`;
    case 'clockwise':
      return `${fits} they are counted clockwise. Count from X+ counter-clockwise, seen from +Z.`;
    case 'swapped':
      return `${fits} x and y change places, or when directions are counted clockwise from Y+. Check which column is which; count from X+ counter-clockwise, seen from +Z.`;
    case 'turned':
      return `${fits} all are turned by ${reading.degrees.toFixed(0).replace('-', '−')}°: is 0° not X+?`;
  }
}

function otherKind(
  kind: Reference<'ring' | 'plug' | 'gap' | 'block' | 'sphere'>['kind'],
  asking: Asking,
): string {
  const other = { ring: 'plug', plug: 'ring', gap: 'block', block: 'gap', sphere: null }[kind];
  if (other === null)
    return 'the directions point away from the sphere: azimuth and elevation are those of the approach, towards its centre.';
  const seen =
    kind === 'ring' || kind === 'plug'
      ? 'the stylus stood opposite to every direction'
      : 'the touches stood on the other sides';
  const from = other === 'plug' || other === 'block' ? 'outside' : 'inside';
  return `${seen}: that is a ${other}, touched from ${from}. ${asking.referenceKind(other)}, or directions that are not those of approach.`;
}

function sizeText(
  refusal: { readonly radius: number; readonly expected: number | null; readonly cure: SizeCure | null },
  reference: { readonly kind: string; readonly size: number },
  show: Quantities,
  asking: Asking,
): string {
  const fact = `with a ${reference.kind} of ${show.length(reference.size)} the effective radius would be ${show.length(refusal.radius)}, which no tip has here`;
  const { cure } = refusal;
  if (cure !== null) {
    if (cure.what === 'tip')
      return `${fact}: the tip diameter and all else are a factor of 25.4 apart. Check ${asking.units}.`;
    const [from, to] = cure.is === 'inch' ? ['inches', 'mm'] : ['mm', 'inches'];
    const looks = cure.what === 'reference' ? 'the reference size looks' : 'x and y look';
    return `${fact}: ${looks} like ${from} where ${to} ${cure.what === 'reference' ? 'is' : 'are'} said.`;
  }
  const about =
    refusal.expected === null || refusal.expected <= 0
      ? 'Check the reference size, its unit and its kind.'
      : `The touches and the tip point to about ${show.length(refusal.expected)}. Check the reference size, the tip diameter and the units.`;
  return `${fact}. ${about}`;
}
