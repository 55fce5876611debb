import { type Improvement, whatWouldHelp } from '../probe/improvement.ts';
import { meansOf } from '../profile/meansOf.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { type ExpectedResult, expectedErrors } from './expectedError.ts';
import { factsOf } from './plan.ts';
import { limitsOf } from './readInputs.ts';
import type { Input, InputValue, Routine, Units } from './routine.ts';
import { unitOf } from './units.ts';

/** Something that would make a result better: another value of an input, or a change of probe or feed. */
export interface BetterWay {
  readonly way:
    | { readonly kind: 'input'; readonly title: string; readonly value: string }
    | { readonly kind: 'change'; readonly change: Improvement['changes'][number] };
  /** Of the result, the worst of those that it concerns. */
  readonly title: string;
  readonly unit: 'mm' | 'degree';
  /** |bias| + U now and then; U alone where the bias is not known. */
  readonly before: number;
  readonly after: number;
}

type Given = Readonly<Record<string, InputValue>>;

/** What gains less than a hundredth is not worth saying. */
const worthwhile = 0.99;
const mostWays = 4;

/** The largest gain first; none where the inputs make no routine. */
export function betterWays(
  routine: Routine,
  given: Given,
  profile: Profile,
  units: Units,
): readonly BetterWay[] {
  const figures = figuresOf(routine, given, profile, units);
  const ways = [
    ...byInputs(routine, given, profile, units, figures),
    ...figures.slice(0, 1).flatMap((worst) => byChanges(worst, profile)),
  ];
  const gains = ways.filter(({ before, after }) => after < worthwhile * before);
  return gains.sort((a, b) => a.after / a.before - b.after / b.before).slice(0, mostWays);
}

interface Figure {
  readonly result: ExpectedResult;
  readonly error: number;
}

/** The results with an error, the worst first; angles where nothing else has one. */
function figuresOf(routine: Routine, given: Given, profile: Profile, units: Units): Figure[] {
  const expected = expectedErrors(routine, given, profile, units);
  if ('problems' in expected) return [];
  const known = expected.results.flatMap((result): Figure[] => {
    if (result.error === null) return [];
    return [{ result, error: result.error.expectedError ?? result.error.expandedUncertainty }];
  });
  const lengths = known.filter(({ result }) => result.kind !== 'angle');
  return (lengths.length > 0 ? lengths : known).sort((a, b) => b.error - a.error);
}

/** What is known of one side only, say a bias, can't be compared. */
function byInputs(
  routine: Routine,
  given: Given,
  profile: Profile,
  units: Units,
  figures: readonly Figure[],
): BetterWay[] {
  return alternatives(routine, given, profile, units).flatMap(({ input, value }): BetterWay[] => {
    const there = figuresOf(routine, { ...given, [input.name]: value }, profile, units);
    for (const { result } of figures) {
      const other = there.find((figure) => figure.result.name === result.name)?.result.error;
      if (!other || !result.error) continue;
      const way = { kind: 'input' as const, title: input.title, value: shown(input, value, units) };
      const both = result.error.expectedError !== null && other.expectedError !== null;
      const [before, after] = [result.error, other].map((error) =>
        both ? (error.expectedError ?? 0) : error.expandedUncertainty,
      ) as [number, number];
      return [{ way, title: result.title, unit: unitOfResult(result), before, after }];
    }
    return [];
  });
}

function byChanges({ result, error }: Figure, profile: Profile): BetterWay[] {
  return whatWouldHelp(probeOf(profile), result.value, meansOf(profile)).flatMap(
    ({ changes: [change], expectedError }): BetterWay[] =>
      change
        ? [
            {
              way: { kind: 'change', change },
              title: result.title,
              unit: unitOfResult(result),
              before: error,
              after: expectedError,
            },
          ]
        : [],
  );
}

function unitOfResult({ kind }: ExpectedResult): BetterWay['unit'] {
  return kind === 'angle' ? 'degree' : 'mm';
}

/** Other values of the inputs that say how much is touched; of a count, one and two more, of a length, twice as much. */
function alternatives(routine: Routine, given: Given, profile: Profile, units: Units) {
  const facts = factsOf(profile);
  return routine.inputs.flatMap((input): { readonly input: Input; readonly value: InputValue }[] => {
    if (input.isEffort !== true) return [];
    const { default: usual, greatest } = limitsOf(input, facts, units);
    const present = given[input.name] ?? usual;
    if (input.choices)
      return input.choices
        .filter(({ value }) => value !== String(present).toLowerCase())
        .map(({ value }) => ({ input, value }));
    const more = input.type === 'count' ? [1, 2].map((by) => Number(present) + by) : [2 * Number(present)];
    return more.filter((value) => value <= (greatest ?? value)).map((value) => ({ input, value }));
  });
}

function shown({ choices, type }: Input, value: InputValue, units: Units): string {
  const unit = unitOf(type, units);
  const said = unit === null ? String(value) : `${value} ${unit}`;
  return choices?.find((choice) => choice.value === value)?.title ?? said;
}
