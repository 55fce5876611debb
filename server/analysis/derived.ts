import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { unitScale } from '../program/parameters.ts';
import { scale, touchesOf, type Value } from '../program/value.ts';
import { madeOf, slopesOf } from './datums.ts';
import type { Flowing } from './flowing.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import type { Datum, Touch } from './model.ts';
import { isAboveZero, type Sight, sumsNear } from './near.ts';
import { datumInFile } from './ownFile.ts';
import { PlacesNow } from './placesNow.ts';
import type { Followed } from './results.ts';
import { programValue } from './stateView.ts';
import { unitOf } from './unitOf.ts';

/**
 * A parameter that touches enter, mm, as what it is made of: once for each way in which the paths to a line make it.
 * Empty where no touch enters it. The targets of these datums are the parameter.
 */
export function derivedValues(
  name: string,
  line: number,
  flows: readonly Flowing[],
  followed: Followed,
  program: JoinedProgram,
  touches: ReadonlyMap<number, Touch>,
  profile: Profile,
): readonly Datum[] {
  const { bench } = followed;
  const dialect = program.lines.dialect.name;
  const now = new PlacesNow(bench.text, program.lines);
  const place = { line: bench.text.nameOf(line), start: 0, end: 0 };
  const found = new Map<string, Datum>();
  for (const flow of flows) {
    const value = programValue(name, flow, dialect, bench.books);
    if (touchesOf(value).size === 0) continue;
    const unit = unitOf(value);
    const perMm = unitScale(flow.state, bench.books);
    const counted = unit === 'mm' ? scale(value, 1 / perMm) : value;
    const sight = { made: flow.made, perMm, dialect };
    const probe = probeOf(profile);
    const asDatum = (sum: Value, magnitude: Datum | null): Datum => ({
      file: null,
      line: place.line,
      place,
      target: name,
      ...madeOf(sum, touches, probe),
      following: null,
      near: [],
      spots: [],
      slopes: slopesOf(sumsNear(sum, sight), touches, probe),
      unit,
      magnitude,
    });
    const inside = insideAbs(counted, sight);
    const datum = asDatum(counted, inside === null ? null : asDatum(inside, null));
    const shown = datumInFile(now.datum(datum), program);
    found.set(sameMake(shown), shown);
  }
  return [...found.values()];
}

/** The sum within ABS, times what that is multiplied with, where the sum is expected above 0; null: no such value. */
function insideAbs(value: Value, sight: Sight): Value | null {
  if (typeof value === 'number' || value.constant !== 0) return null;
  const [only, ...others] = value.terms;
  if (!only || others.length > 0) return null;
  const { unknown, coefficient } = only;
  const [sum] = unknown.kind === 'computed' && unknown.operator === 'ABS' ? unknown.operands : [];
  return sum !== undefined && isAboveZero(sum, sight) ? scale(sum, coefficient) : null;
}

/** As a program writes it: `#5061`, `#<edge>`. */
export function shownName(name: string): string {
  return /^\d+$/.test(name) ? `#${name}` : `#<${name}>`;
}

/** Equal for values that are made of the same. */
export function sameMake({ terms, slopes, diameters, constants, reason, magnitude }: Datum): string {
  return JSON.stringify([
    (terms ?? slopes?.terms)?.map(({ touch, axis, coefficient, from }) => [
      touch.id,
      axis,
      coefficient,
      from,
    ]) ?? null,
    diameters.map(({ coefficient, value }) => [coefficient, value]),
    constants.map(({ coefficient, value }) => coefficient * value),
    reason,
    magnitude && sameMake(magnitude),
  ]);
}
