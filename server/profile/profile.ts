import * as z from 'zod/mini';
import type { PartMaterial, StemMaterial } from '../probe/materials.ts';
import type { Harmonic } from '../probe/probe.ts';
import { contradictions } from './contradictions.ts';
import { abouts, profileDefinition } from './profileDefinition.ts';
import { problemsOf } from './profileProblems.ts';
import { parseProfileText, type TextProblem } from './profileText.ts';
import { resolveProfile } from './resolveProfile.ts';
import { lineStarts, positionOf } from './textPosition.ts';

/** Where a value comes from: the file, the built-in values, or another value of the file. */
export type ValueSource = 'profile' | 'built-in' | 'derived';

export type RuleSetting = 'off' | 'info' | 'warning' | 'error';

/** A profile with its gaps filled: mm, mm/min, mm/s², s, degrees, K, N, whatever the file's own units. */
export interface Profile {
  /** null: the built-in profile. */
  readonly path: string | null;
  /** Units of the file. */
  readonly units: 'mm' | 'inch';
  readonly dialect: 'rs274ngc' | 'macro' | null;
  readonly probe: ProfileProbe;
  readonly machine: ProfileMachine;
  readonly feeds: { readonly positioning: number; readonly search: number; readonly measuring: number };
  /** Common variables that generated routines of the macro dialect take from, both included. */
  readonly routines: { readonly parameters: { readonly first: number; readonly last: number } };
  readonly overtravelSafetyFactor: number;
  readonly placementUncertainty: number | null;
  readonly effectiveDiameterParameter: string | null;
  readonly rules: Readonly<Record<string, RuleSetting>>;
  /** The feed that the calibration states, else a stated `feeds.measuring`; null: neither. */
  readonly statedMeasuringFeed: number | null;
  /** Where the value of a key comes from, the key as in the file: 'probe.tipDiameter'. */
  source(key: string): ValueSource;
}

export interface ProfileProbe {
  readonly tool: number | null;
  readonly tipDiameter: number;
  readonly stylus: {
    readonly length: number;
    readonly stemDiameter: number;
    readonly material: StemMaterial;
  };
  readonly seat: { readonly radius: number; readonly preload: number; readonly angle: number | null };
  readonly overtravel: { readonly lateral: number; readonly axial: number };
  readonly repeatability: number;
  readonly release: number;
  readonly runout: number | null;
  /** File of earlier calibrations, from the folder of the profile. */
  readonly history: string | null;
  readonly calibration: ProfileCalibration | null;
}

export interface ProfileCalibration {
  readonly date: string | null;
  readonly spindle: number | null;
  readonly effectiveDiameter: number;
  /** 0 where `source` says that it is built in: not stated. */
  readonly expandedUncertainty: number;
  readonly coverageFactor: number;
  readonly feed: number | null;
  readonly temperature: number | null;
  readonly residualStandardDeviation: number | null;
  readonly degreesOfFreedom: number | null;
  readonly harmonics: readonly Harmonic[] | null;
  readonly touches: string | null;
}

export interface ProfileMachine {
  readonly deceleration: number;
  readonly reactionTime: number;
  readonly tripLatency: number;
  readonly latchPeriod: number;
  readonly resolution: number;
  readonly positioningUncertainty: number;
  readonly afterTrip: 'stops-past' | 'returns-to-trip';
  /** Infinity for an axis that the profile leaves out. */
  readonly travel: { readonly x: number; readonly y: number; readonly z: number } | null;
  readonly spindleOrientation: boolean;
  readonly temperatureSpread: number | null;
  readonly material: PartMaterial;
}

/** 0-based lines and UTF-16 offsets, half-open. `key` is '' for the file as a whole. */
export interface ProfileProblem {
  readonly key: string;
  readonly message: string;
  readonly line: number;
  readonly start: number;
  readonly endLine: number;
  readonly end: number;
}

export type ProfileReading =
  | { readonly profile: Profile; readonly problems: readonly [] }
  | { readonly profile: null; readonly problems: readonly ProfileProblem[] };

/** Reads a profile's text; every problem names its key and place. An empty file is the built-in profile. */
export function readProfile(
  text: string,
  options: { readonly path: string | null; readonly ruleIds: readonly string[] },
): ProfileReading {
  const parsed = parseProfileText(text);
  if (parsed.root === null) return failed(text, parsed.problems);
  const definition = profileDefinition(options.ruleIds);
  const checked = z.safeParse(definition, parsed.value);
  if (!checked.success) return failed(text, problemsOf(checked.error.issues, parsed.root, definition));
  const profile = resolveProfile(checked.data, definition, options.path);
  const impossible = contradictions(profile, parsed.root);
  return impossible.length > 0 ? failed(text, impossible) : { profile, problems: [] };
}

/** What holds where there is no profile. */
export const builtInProfile: Profile = resolveProfile({}, profileDefinition([]), null);

/** JSON schema (draft 2020-12) of the file, with descriptions and built-in values (in mm), from the one definition. */
export function profileSchema(ruleIds: readonly string[]): object {
  return z.toJSONSchema(profileDefinition(ruleIds), { metadata: abouts });
}

function failed(text: string, problems: readonly TextProblem[]): ProfileReading {
  const starts = lineStarts(text);
  return { profile: null, problems: problems.map((problem) => placed(problem, starts)) };
}

function placed({ key, message, offset, length }: TextProblem, starts: readonly number[]): ProfileProblem {
  const from = positionOf(offset, starts);
  const to = positionOf(offset + length, starts);
  return { key, message, line: from.line, start: from.column, endLine: to.line, end: to.column };
}
