import { resolve } from 'node:path';
import { calibrate } from '../probe/calibration/calibrate.ts';
import { calibrateFlat } from '../probe/calibration/flat.ts';
import { implausibleDirections, implausibleSize } from '../probe/calibration/implausible.ts';
import { implausibleSphere } from '../probe/calibration/implausibleSphere.ts';
import { readSphereTouches, readTouches } from '../probe/calibration/readTouches.ts';
import { calibrateSphere, type SphereTouch } from '../probe/calibration/sphere.ts';
import type { CalibrationTouch, Reference } from '../probe/calibration/touches.ts';
import { calibrationJson } from '../report/calibrationJson.ts';
import { calibrationNotices } from '../report/calibrationNotices.ts';
import { refusalText } from '../report/calibrationRefusal.ts';
import type { CalibrationReport, CalibrationReportHead } from '../report/calibrationReport.ts';
import { calibrationText } from '../report/calibrationText.ts';
import { linesText } from '../report/countWords.ts';
import { styleFor } from '../report/style.ts';
import type { CalibrateOptions } from './calibrateOptions.ts';
import {
  type CalibrationSettings,
  calibrationSettings,
  type Faults,
  readText,
} from './calibrationSettings.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';
import { writeIntoProfile } from './writeIntoProfile.ts';

/** The calibration that touches give, on standard output and, when asked for, in the profile. */
export async function calibrateTouches(
  name: string,
  options: CalibrateOptions,
  terminal: Terminal,
): Promise<ExitStatus> {
  const path = name === '-' ? null : resolve(terminal.cwd, name);
  const settings = calibrationSettings(options, path, terminal);
  if ('faults' in settings) return refuse(terminal, settings.faults);
  const read = await readText(name, terminal);
  if ('faults' in read) return refuse(terminal, read.faults);
  const report = reportOf(name, read.text, settings);
  if ('faults' in report) return refuse(terminal, report.faults);
  const written = options.write ? writeIntoProfile(report, path, settings, terminal) : null;
  if (written !== null && 'faults' in written) return refuse(terminal, written.faults);
  terminal.out(
    options.format === 'json'
      ? calibrationJson(report)
      : calibrationText(report, styleFor(terminal.colour), terminal.width),
  );
  if (written !== null && options.format !== 'json') terminal.out(`${written.said}\n`);
  return calibrationNotices(report).some(({ severity }) => severity === 'error') ? 1 : 0;
}

/** The touches of a text that the person did not leave out, or what is wrong with it. */
export function touchesOf<Touch extends { readonly row: number }>(
  name: string,
  read:
    | { readonly touches: readonly Touch[] }
    | { readonly problems: readonly { line: number; message: string }[] },
  without: readonly number[],
): { readonly touches: readonly Touch[] } | Faults {
  if ('problems' in read)
    return {
      faults: read.problems.map(({ line, message }) => `${name}${line === 0 ? '' : `:${line}`}: ${message}`),
    };
  const missing = without.filter((row) => !read.touches.some((touch) => touch.row === row));
  if (missing.length > 0)
    return {
      faults: [`--without ${missing.join(',')}: no touch stands on ${linesText(missing)} of ${name}.`],
    };
  return { touches: read.touches.filter(({ row }) => !without.includes(row)) };
}

function reportOf(name: string, text: string, settings: CalibrationSettings): CalibrationReport | Faults {
  const { reference, without, millimetres } = settings;
  if (reference === null)
    return { faults: ['--reference-diameter: state the diameter (or width) of what was touched.'] };
  if (reference.kind === 'sphere') {
    const read = touchesOf(name, readSphereTouches(text, millimetres), without);
    return 'faults' in read
      ? read
      : sphereReport(name, read.touches, { ...reference, kind: 'sphere' }, settings);
  }
  const read = touchesOf(name, readTouches(text, millimetres), without);
  if ('faults' in read) return read;
  const flat = reference.kind === 'gap' || reference.kind === 'block';
  return (flat ? flatReport : roundReport)(
    name,
    read.touches,
    { ...reference, kind: reference.kind },
    settings,
  );
}

function head(name: string, count: number, settings: CalibrationSettings): CalibrationReportHead {
  return { ...settings, path: name, count, leftOut: settings.without };
}

function roundReport(
  name: string,
  touches: readonly CalibrationTouch[],
  reference: Reference,
  settings: CalibrationSettings,
): CalibrationReport | Faults {
  const refused = (refusal: Parameters<typeof refusalText>[0]) =>
    refusedWith(name, refusal, reference, settings);
  if (touches.length >= 3) {
    const implausible = implausibleDirections(touches, reference);
    if (implausible !== null) return refused(implausible);
  }
  const result = calibrate(touches, reference, settings);
  if ('kind' in result) return refused(result);
  const size = implausibleSize(result.effectiveDiameter / 2, reference, settings.tipDiameter);
  if (size !== null) return refused(size);
  return { ...head(name, touches.length, settings), kind: 'round', result, reference };
}

function flatReport(
  name: string,
  touches: readonly CalibrationTouch[],
  reference: Reference,
  settings: CalibrationSettings,
): CalibrationReport | Faults {
  const result = calibrateFlat(touches, reference, settings);
  if ('kind' in result) return refusedWith(name, result, reference, settings);
  return { ...head(name, touches.length, settings), kind: 'flat', result, reference };
}

function sphereReport(
  name: string,
  touches: readonly SphereTouch[],
  reference: Reference<'sphere'>,
  settings: CalibrationSettings,
): CalibrationReport | Faults {
  const refused = (refusal: Parameters<typeof refusalText>[0]) =>
    refusedWith(name, refusal, reference, settings);
  if (touches.length < 4) return refused({ kind: 'too-few', touches: touches.length, needed: 4 });
  const implausible = implausibleSphere(touches);
  if (implausible !== null) return refused(implausible);
  const result = calibrateSphere(touches, reference, settings);
  if (result === null) return refused({ kind: 'one-sided', condition: Infinity });
  const size = implausibleSize(result.lateralRadius, reference, settings.tipDiameter);
  if (size !== null) return refused(size);
  return { ...head(name, touches.length, settings), kind: 'sphere', result, reference };
}

function refusedWith(
  name: string,
  refusal: Parameters<typeof refusalText>[0],
  reference: Parameters<typeof refusalText>[1],
  { show }: CalibrationSettings,
): Faults {
  return { faults: refusalText(refusal, reference, show).map((text) => `${name}: ${text}`) };
}
