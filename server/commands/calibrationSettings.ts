import { dirname, join, resolve } from 'node:path';
import { ruleIds } from '../checks/registry.ts';
import { isDate } from '../probe/calibration/readHistory.ts';
import type { Reference, ReferenceKind } from '../probe/calibration/touches.ts';
import { builtInProfile, type Profile } from '../profile/profile.ts';
import { profileWithoutCalibration } from '../profile/writeCalibration.ts';
import { type Asking, byOptions } from '../report/asking.ts';
import { type CalibrationBasis, calibrationBasis } from '../report/calibrationBasis.ts';
import type { Faults } from '../report/touchesOf.ts';
import { profileName } from '../workspace/documentKind.ts';
import type { CalibrateOptions } from './calibrateOptions.ts';
import { shownPath } from './paths.ts';
import { nearestProfile, profiles } from './profileOf.ts';
import { type Coding, decodeProgram } from './programText.ts';
import type { Terminal } from './terminal.ts';

/** The options of `calibrate` as numbers in mm, and the profile that they go with. */
export interface CalibrationSettings extends CalibrationBasis {
  readonly profile: Profile;
  /** Absolute; where a calibration is written. */
  readonly profilePath: string;
  readonly profileExists: boolean;
  /** null: no size was given. */
  readonly reference: Reference<ReferenceKind | 'sphere'> | null;
  readonly referenceUncertaintyStated: boolean;
  /** That the person gave on the command line. */
  readonly tipGiven: boolean;
  readonly orders: readonly number[];
  readonly without: readonly number[];
  readonly spindles: readonly number[];
  readonly temperature: number | null;
  readonly date: string;
  readonly asking: Asking;
}

export type { Faults };

export const noReference = '--reference-diameter: state the diameter (or width) of what was touched.';

/** @param touches absolute path of the touches; null: standard input or none */
export function calibrationSettings(
  options: CalibrateOptions,
  touches: string | null,
  terminal: Terminal,
): CalibrationSettings | Faults {
  const found = findProfile(options, touches, terminal);
  if ('faults' in found) return found;
  const { profile } = found;
  const basis = calibrationBasis(profile, options.units ?? profile.units);
  const { millimetres } = basis;
  const faults: string[] = [];
  const length = (name: string, text: string | null, least: 'positive' | 'zero', example: number) => {
    if (text === null) return null;
    const value = numberOf(text);
    const good = value !== null && (least === 'zero' ? value >= 0 : value > 0);
    if (!good)
      faults.push(
        `--${name} ${text}: a length ${least === 'zero' ? 'of 0 or more' : 'greater than 0'}, such as ${Number((example / millimetres).toFixed(5))}.`,
      );
    return good ? value * millimetres : null;
  };
  const size = length('reference-diameter', options.referenceDiameter, 'positive', 25.001);
  const uncertainty = length('reference-uncertainty', options.referenceUncertainty, 'zero', 0.001);
  const tip = length('tip-diameter', options.tipDiameter, 'positive', 3.998);
  const list = (name: string, text: string | null, example: string, good: (value: number) => boolean) => {
    if (text === null) return [];
    const values = text.split(',').map((part) => numberOf(part.trim()));
    if (values.every((value) => value !== null && good(value))) return values as number[];
    faults.push(`--${name} ${text}: a list such as ${example}.`);
    return [];
  };
  const whole = (most: number) => (value: number) => Number.isInteger(value) && value >= 1 && value <= most;
  const orders = list('harmonics', options.harmonics, '3,6', whole(90));
  const without = list('without', options.without, '7,12, the lines of the touches', whole(1e6));
  const spindles = list('spindle', options.spindle, '0,180', (value) => Math.abs(value) <= 360);
  const temperature = options.temperature === null ? null : numberOf(options.temperature);
  if (options.temperature !== null && (temperature === null || temperature <= -273.15))
    faults.push(`--temperature ${options.temperature}: degrees Celsius, such as 20.5.`);
  if (options.date !== null && !isDate(options.date))
    faults.push(`--date ${options.date}: a day such as 2025-03-31.`);
  if (faults.length > 0) return { faults };
  return {
    ...found,
    ...basis,
    reference:
      size === null ? null : { kind: options.referenceKind, size, expandedUncertainty: uncertainty ?? 0 },
    referenceUncertaintyStated: uncertainty !== null,
    tipDiameter: tip ?? basis.tipDiameter,
    tipGiven: tip !== null,
    orders: options.harmonics === null ? [3] : orders,
    without,
    spindles,
    temperature,
    asking: byOptions,
    date: options.date ?? today(),
  };
}

/** Text of a file that the person named, or why there is none. */
export async function readText(
  name: string,
  terminal: Terminal,
): Promise<{ readonly text: string; readonly coding: Coding } | Faults> {
  if (name === '-') return decoded('standard input', await terminal.readStandardInput());
  const path = resolve(terminal.cwd, name);
  const look = terminal.files.look(path);
  if (look?.kind === 'folder') return { faults: [`${name}: a folder; name a file.`] };
  if (look !== null && look.size > largestFile)
    return {
      faults: [`${name}: ${Math.round(look.size / 1e6)} MB; at most ${largestFile / 1e6} MB are read.`],
    };
  const read = terminal.files.read(path);
  if ('problem' in read) return { faults: [`${name}: cannot be read: ${read.problem}.`] };
  return decoded(name, read.bytes);
}

const largestFile = 4_000_000;

function decoded(
  name: string,
  bytes: Uint8Array,
): { readonly text: string; readonly coding: Coding } | Faults {
  const found = decodeProgram(bytes);
  if (found === null) return { faults: [`${name}: binary, no text.`] };
  const { text, ...coding } = found;
  return { text, coding };
}

function findProfile(
  { profile: named, write }: CalibrateOptions,
  touches: string | null,
  terminal: Terminal,
): Pick<CalibrationSettings, 'profile' | 'profilePath' | 'profileExists'> | Faults {
  const path = named === null ? null : resolve(terminal.cwd, named);
  if (path !== null && write && terminal.files.look(path) === null)
    return { profile: builtInProfile, profilePath: path, profileExists: false };
  const found = profiles(named, terminal)(touches);
  if ('faults' in found) {
    const at = path ?? nearestProfile(touches === null ? terminal.cwd : dirname(touches), terminal);
    const mended = write && at !== null ? toBeCalibrated(at, terminal) : null;
    return mended === null ? found : { profile: mended, profilePath: at ?? '', profileExists: true };
  }
  const beside = join(touches === null ? terminal.cwd : dirname(touches), profileName);
  return {
    profile: found.profile,
    profilePath: found.uri === null ? beside : resolve(terminal.cwd, found.uri),
    profileExists: found.uri !== null,
  };
}

/** A profile whose calibration is impossible is what `--write` mends. */
function toBeCalibrated(path: string, terminal: Terminal): Profile | null {
  const read = terminal.files.read(path);
  const text = 'bytes' in read ? decodeProgram(read.bytes)?.text : undefined;
  return text === undefined
    ? null
    : profileWithoutCalibration(text, { path: shownPath(terminal.cwd, path), ruleIds });
}

function numberOf(text: string): number | null {
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(text.trim()) ? Number(text) : null;
}

/** The day where the machine stands. */
function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
