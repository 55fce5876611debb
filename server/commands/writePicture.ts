import { resolve } from 'node:path';
import { probeOf } from '../profile/probeOf.ts';
import { calibrationPicture } from '../report/calibrationPicture.ts';
import type { CalibrationReport } from '../report/calibrationReport.ts';
import type { CalibrationSettings, Faults } from './calibrationSettings.ts';
import { encodeProgram } from './programText.ts';
import type { Terminal } from './terminal.ts';

/** The picture of a calibration and where it goes. */
export interface Picture {
  /** As the person wrote it. */
  readonly name: string;
  readonly svg: string;
}

/** Drawn before anything is written, so that a picture that cannot be leaves the profile as it is. */
export function drawPicture(
  name: string,
  report: CalibrationReport,
  { profile }: CalibrationSettings,
): Picture | Faults {
  const svg = calibrationPicture(report, probeOf(profile));
  if (svg === null)
    return {
      faults: [
        `--picture: drawn for a ring or a plug; a ${report.reference.kind} shows no radius all around.`,
      ],
    };
  return namedPicture(name, svg);
}

/** Whoever mistakes the file for that of the touches or the history would lose them. */
export function namedPicture(name: string, svg: string): Picture | Faults {
  return /\.svg$/i.test(name) ? { name, svg } : { faults: [`--picture ${name}: a name that ends in .svg.`] };
}

export function writePicture(
  { name, svg }: Picture,
  { cwd, files }: Terminal,
): { readonly said: string } | Faults {
  const bytes = encodeProgram(`${svg}\n`, { encoding: 'utf-8', mark: false });
  const problem = files.replace(resolve(cwd, name), bytes);
  if (problem !== null) return { faults: [`${name}: cannot be written: ${problem.problem}.`] };
  return { said: `Picture: ${name}.` };
}
