import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { unitScale } from '../program/parameters.ts';
import { scale, touchesOf } from '../program/value.ts';
import { madeOf } from './datums.ts';
import type { Flowing } from './flowing.ts';
import type { JoinedProgram } from './joinedProgram.ts';
import type { Datum, Touch } from './model.ts';
import { datumInFile } from './ownFile.ts';
import { PlacesNow } from './placesNow.ts';
import type { Followed } from './results.ts';
import { programValue } from './stateView.ts';

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
    const inMm = scale(value, 1 / unitScale(flow.state, bench.books));
    const made = madeOf(inMm, touches, probeOf(profile));
    const datum: Datum = {
      file: null,
      line: place.line,
      place,
      target: name,
      ...made,
      following: null,
      near: [],
    };
    const shown = datumInFile(now.datum(datum), program);
    found.set(sameMake(shown), shown);
  }
  return [...found.values()];
}

/** As a program writes it: `#5061`, `#<edge>`. */
export function shownName(name: string): string {
  return /^\d+$/.test(name) ? `#${name}` : `#<${name}>`;
}

/** Equal for values that are made of the same. */
export function sameMake({ terms, diameters, constants, reason }: Datum): string {
  return JSON.stringify([
    terms?.map(({ touch, axis, coefficient, from }) => [touch.id, axis, coefficient, from]) ?? null,
    diameters.map(({ coefficient, value }) => [coefficient, value]),
    constants.map(({ coefficient, value }) => coefficient * value),
    reason,
  ]);
}
