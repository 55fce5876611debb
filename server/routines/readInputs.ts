import type { Facts, Input, InputValue, Routine, Units } from './routine.ts';
import { limit, shortened, toMillimetres, unitOf } from './units.ts';

/** What is wrong with the inputs; `inputs` is empty where it is the profile. */
export interface InputProblem {
  readonly inputs: readonly string[];
  readonly message: string;
}

/** Lengths in mm, feeds in mm/min. */
export type Values = ReadonlyMap<string, InputValue>;

export interface Limits {
  readonly default: InputValue;
  readonly least: number | null;
  readonly greatest: number | null;
}

/** Default and limits of an input as a form shows them, in these units. */
export function limitsOf(input: Input, facts: Facts, units: Units): Limits {
  const usual = input.default(facts);
  const scaled = input.type === 'length' || input.type === 'feed';
  const bound = (mm: number | undefined, which: 'least' | 'greatest') =>
    mm === undefined ? null : scaled ? limit(mm, units, which) : mm;
  const least = bound(input.least?.(facts), 'least');
  const greatest = bound(input.greatest?.(facts), 'greatest');
  if (typeof usual !== 'number') return { default: usual, least, greatest };
  const short = scaled ? shortened(usual, units) : usual;
  const within = Math.min(Math.max(short, least ?? short), greatest ?? Infinity);
  return { default: within, least, greatest };
}

/** Reads what a person gave, in these units; absent inputs take their default. */
export function readInputs(
  routine: Routine,
  given: Readonly<Record<string, InputValue>>,
  facts: Facts,
  units: Units,
): { readonly values: Values; readonly problems: readonly InputProblem[] } {
  const values = new Map<string, InputValue>();
  const problems: InputProblem[] = [];
  for (const name of Object.keys(given))
    if (!routine.inputs.some((input) => input.name === name))
      problems.push({
        inputs: [name],
        message: `${routine.name} has no input ${name}. It has ${names(routine)}.`,
      });
  for (const input of routine.inputs) {
    const limits = limitsOf(input, facts, units);
    const own = Object.hasOwn(given, input.name) ? given[input.name] : undefined;
    const read = readOne(input, own ?? limits.default, limits, units);
    if (typeof read === 'object') problems.push({ inputs: [input.name], message: read.problem });
    else values.set(input.name, read);
  }
  return { values, problems };
}

function readOne(
  input: Input,
  value: InputValue,
  limits: Limits,
  units: Units,
): InputValue | { readonly problem: string } {
  switch (input.type) {
    case 'choice':
      return readChoice(input, value);
    case 'flag':
      return readFlag(input, value);
    case 'text':
      return String(value);
    default:
      return readNumber(input, value, limits, units);
  }
}

/** As a person writes one: no 0x10. */
const decimal = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

function readNumber(
  input: Input,
  value: InputValue,
  { least, greatest }: Limits,
  units: Units,
): number | { readonly problem: string } {
  const said = String(value).trim();
  const number = typeof value === 'boolean' || !decimal.test(said) ? Number.NaN : Number(said);
  if (!Number.isFinite(number)) return { problem: `${input.title} must be a number, not "${said}".` };
  if (input.type === 'count' && !Number.isInteger(number))
    return { problem: `${input.title} must be a whole number.` };
  const unit = unitOf(input.type, units);
  const bounded = (bound: number) => (unit === null ? `${bound}` : `${bound} ${unit}`);
  if (least !== null && number < least)
    return { problem: `${input.title} must be at least ${bounded(least)}.` };
  if (greatest !== null && number > greatest)
    return { problem: `${input.title} must be at most ${bounded(greatest)}.` };
  // What no machine is large enough for is a slip of the keyboard.
  if (input.type === 'length' && Math.abs(toMillimetres(number, units)) > 100_000)
    return { problem: `${input.title} is longer than any machine.` };
  return input.type === 'length' || input.type === 'feed' ? toMillimetres(number, units) : number;
}

function readChoice(input: Input, value: InputValue): string | { readonly problem: string } {
  const choices = input.choices ?? [];
  const found = choices.find((choice) => choice.value.toLowerCase() === String(value).trim().toLowerCase());
  if (found !== undefined) return found.value;
  return { problem: `${input.title} must be one of ${choices.map((choice) => choice.value).join(', ')}.` };
}

function readFlag(input: Input, value: InputValue): boolean | { readonly problem: string } {
  const said = String(value).trim().toLowerCase();
  if (said === 'true' || said === 'yes') return true;
  if (said === 'false' || said === 'no') return false;
  return { problem: `${input.title} must be true or false.` };
}

function names(routine: Routine): string {
  return routine.inputs.map((input) => input.name).join(', ');
}
