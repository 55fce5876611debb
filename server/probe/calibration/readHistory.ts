import type { PastCalibration } from './trend.ts';

/** A line of the history file: lengths in mm, feed in mm/min, whatever the units of the profile. */
export interface HistoryLine extends PastCalibration {
  readonly coverageFactor: number | null;
  readonly feed: number | null;
  readonly touches: string | null;
}

export type ReadHistory =
  | { readonly entries: readonly HistoryLine[] }
  | { readonly problems: readonly { readonly line: number; readonly message: string }[] };

const mostCharacters = 4_000_000;

/**
 * The history of calibrations: one JSON object a line, blank lines and lines that begin with `#` aside. Other keys may be
 * there and stay. A line that is no such object is a problem: nothing is guessed, and nothing is to be written over it.
 */
export function readHistory(text: string): ReadHistory {
  if (text.length > mostCharacters)
    return { problems: [{ line: 0, message: 'too large for a history of calibrations.' }] };
  const entries: HistoryLine[] = [];
  const problems: { line: number; message: string }[] = [];
  for (const [index, each] of text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .entries()) {
    if (each.trim() === '' || each.trimStart().startsWith('#')) continue;
    const entry = entryOf(each);
    if (typeof entry === 'string') problems.push({ line: index + 1, message: entry });
    else entries.push(entry);
  }
  return problems.length > 0 ? { problems: problems.slice(0, 20) } : { entries };
}

/**
 * The text with one more line at its end. The same calibration (day, diameter, touches) is not put in twice: the text
 * comes back as it is.
 */
export function appendToHistory(text: string, entries: readonly HistoryLine[], entry: HistoryLine): string {
  const known = entries.some(
    ({ date, effectiveDiameter, touches }) =>
      date === entry.date && touches === entry.touches && effectiveDiameter === entry.effectiveDiameter,
  );
  if (known) return text;
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  const start = text === '' || /[\r\n]$/.test(text) ? text : `${text}${eol}`;
  return `${start}${JSON.stringify(entry)}${eol}`;
}

/** To a nanometre, as the profile has it. */
export function roundedEntry(entry: HistoryLine): HistoryLine {
  const nanometres = (value: number | null) => (value === null ? null : Number(value.toFixed(6)));
  return {
    date: entry.date,
    effectiveDiameter: Number(entry.effectiveDiameter.toFixed(6)),
    expandedUncertainty: nanometres(entry.expandedUncertainty),
    coverageFactor: entry.coverageFactor === null ? null : Number(entry.coverageFactor.toFixed(4)),
    tipDiameter: nanometres(entry.tipDiameter),
    feed: entry.feed === null ? null : Number(entry.feed.toPrecision(8)),
    touches: entry.touches,
  };
}

function entryOf(line: string): HistoryLine | string {
  const value = parsed(line);
  if (typeof value !== 'object' || value === null || Array.isArray(value))
    return 'no JSON object. Each line is one calibration: {"date":"2025-03-31","effectiveDiameter":5.968}.';
  const found = new Map<string, unknown>(Object.entries(value));
  const date = found.get('date');
  if (typeof date !== 'string' || !isDate(date)) return '"date" must be a day such as "2025-03-31".';
  const effectiveDiameter = found.get('effectiveDiameter');
  if (!isPositive(effectiveDiameter)) return '"effectiveDiameter" must be a number greater than 0, mm.';
  const numbers = ['expandedUncertainty', 'coverageFactor', 'tipDiameter', 'feed'] as const;
  for (const name of numbers) {
    const number = found.get(name) ?? null;
    if (number !== null && !isPositive(number) && !(name === 'expandedUncertainty' && number === 0))
      return `"${name}" must be a number greater than 0, or left out.`;
  }
  const touches = found.get('touches') ?? null;
  if (touches !== null && typeof touches !== 'string') return '"touches" must be a text, or left out.';
  const number = (name: (typeof numbers)[number]) => (found.get(name) ?? null) as number | null;
  return {
    date,
    effectiveDiameter,
    expandedUncertainty: number('expandedUncertainty'),
    coverageFactor: number('coverageFactor'),
    tipDiameter: number('tipDiameter'),
    feed: number('feed'),
    touches,
  };
}

/** undefined: no JSON. */
function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}

function isPositive(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value) && value > 0;
}

/** 2025-02-30 is none. */
export function isDate(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return Number.isFinite(time) && new Date(time).toISOString().startsWith(text);
}
