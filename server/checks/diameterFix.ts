import type { DiameterUse } from '../analysis/model.ts';
import { replaced } from './lineEdits.ts';
import type { CheckContext, Fix } from './rule.ts';

// A number behind a slash halves; it is no size.
const numeral = /(?<![#\w.]|\/\s*)\d*\.?\d+(?![\w.])/g;

/**
 * Multiplies the number that stands for the diameter or the radius, so that what it means becomes `wanted`·(what it is).
 * None where the place shows it more than once, or not at all: it comes from elsewhere.
 */
export function diameterFix(
  use: DiameterUse,
  wanted: number,
  title: (text: string) => string,
  context: CheckContext,
): Fix[] {
  const { source } = context.analysis;
  const { line, start, end } = use.place;
  const shown = source.text.line(line).slice(start, end);
  const meant = [...shown.matchAll(numeral)].filter((found) => isMeant(Number(found[0]), use));
  const [only] = meant;
  if (!only || meant.length !== 1) return [];
  const text = sixDigits(Number(only[0]) * wanted);
  const at = start + only.index;
  return [
    {
      title: title(text),
      edits: [replaced(line, { start: at, end: at + only[0].length }, text)],
      changesMotion: true,
    },
  ];
}

/** The diameter or the radius that the use speaks of, in mm or inches. */
function isMeant(number: number, { value }: DiameterUse): boolean {
  if (value === null || number === 0) return false;
  const ratios = [number / value, (number * 25.4) / value];
  return ratios.some((ratio) => Math.abs(ratio - 1) < 1e-9 || Math.abs(ratio - 0.5) < 1e-9);
}

function sixDigits(value: number): string {
  return String(Number(value.toPrecision(6)));
}
