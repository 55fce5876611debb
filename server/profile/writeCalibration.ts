import { findNodeAtLocation, type JSONPath } from 'jsonc-parser';
import type { Harmonic } from '../probe/probe.ts';
import { type Profile, type ProfileProblem, readProfile } from './profile.ts';
import { parseProfileText } from './profileText.ts';
import { setKey } from './setKey.ts';
import { lineStarts, positionOf } from './textPosition.ts';

/** What `probe.calibration` is to hold, mm and mm/min; null: the key is taken out. */
export interface CalibrationEntry {
  readonly date: string | null;
  readonly spindle: number | null;
  readonly effectiveDiameter: number;
  readonly expandedUncertainty: number | null;
  readonly coverageFactor: number | null;
  readonly feed: number | null;
  /** °C. */
  readonly temperature: number | null;
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number | null;
  /** null: never observed; empty: observed and none. */
  readonly harmonics: readonly Harmonic[] | null;
  readonly touches: string | null;
}

export interface WriteCalibrationOptions {
  /** Actual tip diameter, mm, written where the file has none; null: left as it is. */
  readonly tipDiameter: number | null;
  /** The history file as the profile is to name it, written where it names none; null: left as it is. */
  readonly history: string | null;
  /** Units of a file that says none, because it is new. */
  readonly units: 'mm' | 'inch';
  readonly path: string | null;
  readonly ruleIds: readonly string[];
}

export type WrittenProfile =
  | { readonly text: string }
  /** Of the text as it was, or as it would be. */
  | { readonly problems: readonly ProfileProblem[]; readonly of: 'before' | 'after' };

/**
 * The profile's text with this calibration in it, in the units of the file; comments, layout and all other keys stay as
 * they are. An empty text becomes a new profile. The result is a profile without problems, or there is none.
 */
export function writeCalibration(
  text: string,
  entry: CalibrationEntry,
  options: WriteCalibrationOptions,
): WrittenProfile {
  const mark = text.startsWith('\uFEFF') ? '\uFEFF' : '';
  const before = text.slice(mark.length);
  const parsed = parseProfileText(before);
  if (parsed.root === null) {
    const starts = lineStarts(before);
    const placed = parsed.problems.map(({ key, message, offset, length }) => {
      const [from, to] = [positionOf(offset, starts), positionOf(offset + length, starts)];
      return { key, message, line: from.line, start: from.column, endLine: to.line, end: to.column };
    });
    return { problems: placed, of: 'before' };
  }
  const stated = new Map<string, unknown>(entriesOf(parsed.value));
  if (stated.has('probe') && !isGroup(stated.get('probe')))
    return { problems: readProfile(before, options).problems, of: 'before' };
  const units = stated.get('units') ?? (before.trim() === '' ? options.units : 'mm');
  const after = edited(before, stated, entry, units === 'inch' ? 'inch' : 'mm', options);
  const { problems } = readProfile(after, options);
  return problems.length > 0 ? { problems, of: 'after' } : { text: mark + after };
}

/**
 * The profile without its calibration, where only that is at fault: with another tip the last one may be impossible, and
 * a new one is to take its place. null: something else is at fault.
 */
export function profileWithoutCalibration(
  text: string,
  options: { readonly path: string | null; readonly ruleIds: readonly string[] },
): Profile | null {
  const before = text.replace(/^\uFEFF/, '');
  const root = parseProfileText(before).root;
  const path = ['probe', 'calibration'];
  if (root === null || findNodeAtLocation(root, path) === undefined) return null;
  return readProfile(setKey(before, path, undefined, {}), options).profile;
}

function edited(
  before: string,
  stated: ReadonlyMap<string, unknown>,
  entry: CalibrationEntry,
  units: 'mm' | 'inch',
  { tipDiameter, history }: WriteCalibrationOptions,
): string {
  const formattingOptions = layoutOf(before);
  let text = before;
  const set = (path: JSONPath, value: unknown) => {
    text = setKey(text, path, value ?? undefined, formattingOptions);
  };
  if (before.trim() === '' && units === 'inch') set(['units'], units);
  const probe = new Map(entriesOf(stated.get('probe')));
  if (probe.has('calibration') && !isGroup(probe.get('calibration'))) set(['probe', 'calibration'], {});
  const hasTip = probe.has('tipDiameter');
  if (tipDiameter !== null && !hasTip) set(['probe', 'tipDiameter'], length(tipDiameter, units));
  for (const [key, value] of calibrationValues(entry, units)) set(['probe', 'calibration', key], value);
  if (history !== null && !probe.has('history')) set(['probe', 'history'], history);
  return before.trim() === '' && !text.endsWith('\n') ? `${text}\n` : text;
}

/** In the order of `profile.md`. */
function calibrationValues(entry: CalibrationEntry, units: 'mm' | 'inch'): [string, unknown][] {
  const asLength = (mm: number | null) => (mm === null ? null : length(mm, units));
  return [
    ['date', entry.date],
    ['spindle', entry.spindle],
    ['effectiveDiameter', asLength(entry.effectiveDiameter)],
    ['expandedUncertainty', asLength(entry.expandedUncertainty)],
    ['coverageFactor', entry.coverageFactor === null ? null : Number(entry.coverageFactor.toFixed(4))],
    ['feed', entry.feed === null ? null : significant(units === 'inch' ? entry.feed / 25.4 : entry.feed)],
    ['temperature', entry.temperature],
    ['residualStandardDeviation', asLength(entry.residualStandardDeviation)],
    ['degreesOfFreedom', entry.degreesOfFreedom],
    [
      'harmonics',
      entry.harmonics?.map(({ order, cosine, sine }) => ({
        order,
        cosine: length(cosine, units),
        sine: length(sine, units),
      })) ?? null,
    ],
    ['touches', entry.touches],
  ];
}

/** To a nanometre, or to 10⁻⁷ in: finer than any of these numbers is known. */
function length(mm: number, units: 'mm' | 'inch'): number {
  const value = units === 'inch' ? Number((mm / 25.4).toFixed(7)) : Number(mm.toFixed(6));
  return value === 0 ? 0 : value;
}

function significant(value: number): number {
  return Number(value.toPrecision(8));
}

/** Indentation and line ends as the text has them; two blanks and LF where it has none. */
function layoutOf(text: string): { tabSize: number; insertSpaces: boolean; eol: string } {
  const indent = /^([ \t]+)\S/m.exec(text)?.[1] ?? '  ';
  return {
    tabSize: indent.startsWith('\t') ? 4 : indent.length,
    insertSpaces: !indent.startsWith('\t'),
    eol: text.includes('\r\n') ? '\r\n' : '\n',
  };
}

function entriesOf(value: unknown): [string, unknown][] {
  return isGroup(value) ? Object.entries(value) : [];
}

function isGroup(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
