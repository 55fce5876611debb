import type { InputValue, RoutineInput } from '../../server/protocol/requests.ts';

/** What is wrong with a typed value, in words for the person who typed it; null: nothing. */
export function inputFault(input: RoutineInput, typed: string): string | null {
  const text = typed.trim();
  if (input.type === 'text') return text === '' && input.required ? 'Something must stand here.' : null;
  if (text === '') return input.default === null ? 'A number must stand here.' : null;
  if (/^[-+]?\d*,\d+$/.test(text)) return 'Write the number with a point: 12.5';
  if (!/^[-+]?(\d+\.?\d*|\.\d+)$/.test(text)) return `"${text}" is no number.`;
  const value = Number(text);
  if (input.type === 'count' && !Number.isInteger(value)) return 'A whole number is wanted.';
  if (input.least !== null && value < input.least) return `At least ${measure(input, input.least)}.`;
  if (input.greatest !== null && value > input.greatest) return `At most ${measure(input, input.greatest)}.`;
  return null;
}

/** The value of a text without fault; null: nothing was typed, so the default holds. */
export function readInput(input: RoutineInput, typed: string): InputValue | null {
  const text = typed.trim();
  if (input.type === 'text') return text;
  return text === '' ? null : Number(text);
}

/** "From 8 to 400 mm.", or an empty text where there are no limits. */
export function limits({ least, greatest, ...input }: RoutineInput): string {
  if (least !== null && greatest !== null) return `From ${least} to ${measure(input, greatest)}.`;
  if (least !== null) return `At least ${measure(input, least)}.`;
  return greatest === null ? '' : `At most ${measure(input, greatest)}.`;
}

/** A value as it stands in the list: "62 mm", "yes", the title of a choice. */
export function shownValue(input: RoutineInput, value: InputValue | null): string {
  if (value === null || value === '') return 'not given';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  const choice = input.choices?.find((one) => one.value === String(value));
  return choice ? choice.title : measure(input, value);
}

function measure({ unit }: Pick<RoutineInput, 'unit'>, value: string | number): string {
  if (unit === null) return `${value}`;
  return unit === '°' ? `${value}°` : `${value} ${unit}`;
}
