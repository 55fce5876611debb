import type { Profile } from '../profile/profile.ts';
import { type BetterWay, betterWays } from '../routines/betterWays.ts';
import { expectedErrors } from '../routines/expectedError.ts';
import type { InputValue, Routine, Units } from '../routines/routine.ts';
import { changeText } from './changeWords.ts';
import { type Quantities, quantities } from './quantities.ts';

/** What it is, and in words how large, or what it gains. */
export interface Row {
  readonly title: string;
  readonly text: string;
}

export interface ErrorToExpect {
  /** One a result. */
  readonly errors: readonly Row[];
  /** What would make the worst of them better, the largest gain first. */
  readonly betterWays: readonly Row[];
}

type Given = Readonly<Record<string, InputValue>>;

/** What to expect of a routine's results with these inputs, and what would make it better; nothing where they make no routine. */
export function errorToExpect(routine: Routine, given: Given, profile: Profile, units: Units): ErrorToExpect {
  const show = quantities(units);
  const ways = betterWays(routine, given, profile, units).map((each) => {
    const error = each.unit === 'degree' ? degrees : show.error;
    return {
      title: wayText(each.way, show),
      text: `${each.title}: ±${error(each.after)} instead of ±${error(each.before)}`,
    };
  });
  return { errors: resultErrors(routine, given, profile, units), betterWays: ways };
}

/** The errors alone, which take less time. */
export function resultErrors(routine: Routine, given: Given, profile: Profile, units: Units): Row[] {
  const expected = expectedErrors(routine, given, profile, units);
  if ('problems' in expected) return [];
  const show = quantities(units);
  return expected.results.flatMap(({ title, kind, error }) => {
    if (error === null) return [];
    if (kind === 'angle') return [{ title, text: `±${degrees(error.expandedUncertainty)}` }];
    const bias = error.bias === null ? 'bias not known' : `bias ${show.signedError(error.bias)}`;
    const predicted = error.calibrated ? '' : ', predicted, not calibrated';
    return [{ title, text: `±${show.error(error.expandedUncertainty)}, ${bias}${predicted}` }];
  });
}

function degrees(error: number): string {
  return `${Number(error.toPrecision(2))}°`;
}

function wayText(way: BetterWay['way'], show: Quantities): string {
  if (way.kind === 'input') return `${way.title}: ${way.value}`;
  const text = changeText(way.change, show);
  return text.charAt(0).toUpperCase() + text.slice(1);
}
