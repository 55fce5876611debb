import type { StemMaterial } from '../probe/materials.ts';
import { predict as prediction } from '../probe/prediction.ts';
import type { Probe } from '../probe/probe.ts';
import { probeOf } from '../profile/probeOf.ts';
import { predictionJson, predictionText } from '../report/predictionReport.ts';
import { quantities } from '../report/quantities.ts';
import { readLength } from '../report/readLength.ts';
import { styleFor } from '../report/style.ts';
import { profiles } from './profileOf.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

/** Sizes as they were written; null: the profile's. */
export interface PredictOptions {
  readonly tipDiameter: string | null;
  readonly length: string | null;
  readonly stemDiameter: string | null;
  readonly material: StemMaterial | null;
  readonly format: 'text' | 'json';
  readonly profile: string | null;
}

/** `probewright predict`: what the trip model says about the profile's probe, or about another stylus in it. */
export function predict(options: PredictOptions, terminal: Terminal): ExitStatus {
  const found = profiles(options.profile, terminal)(null);
  if ('faults' in found) return refuse(terminal, found.faults);
  const { profile } = found;
  const probe = probeOf(profile);
  const stylus = { ...probe.stylus, material: options.material ?? probe.stylus.material };
  const sizes = [
    ['--tip-diameter', options.tipDiameter, probe.tipDiameter],
    ['--length', options.length, stylus.length],
    ['--stem-diameter', options.stemDiameter, stylus.stemDiameter],
  ] as const;
  const read = sizes.map(([, written, own]) => (written === null ? own : readLength(written, profile.units)));
  const faults = sizes.flatMap(([name, written], index) =>
    read[index] === null ? [`${name} ${written}: a length over 0, such as 50, 50mm or 2in.`] : [],
  );
  const [tipDiameter, length, stemDiameter] = read;
  if (!tipDiameter || !length || !stemDiameter) return refuse(terminal, faults);
  const asked: Probe = { ...probe, tipDiameter, stylus: { ...stylus, length, stemDiameter } };
  const predicted = prediction(asked);
  const show = quantities(profile.units);
  if (predicted.effectiveDiameter <= 0)
    return refuse(terminal, [
      `a stem of ${show.length(stemDiameter)} by ${show.length(length)} would bend by more than the radius of the tip before the probe trips: no probe is like that. Check --stem-diameter, --length, --tip-diameter, their units and the profile.`,
    ]);
  const report = { probe: asked, profile, prediction: predicted, show };
  terminal.out(
    options.format === 'json'
      ? predictionJson(report)
      : predictionText(report, styleFor(terminal.colour), terminal.width),
  );
  return 0;
}
