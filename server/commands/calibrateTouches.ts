import { resolve } from 'node:path';
import { calibrate } from '../probe/calibration/calibrate.ts';
import { calibrateFlat } from '../probe/calibration/flat.ts';
import { implausibleDirections, implausibleSize } from '../probe/calibration/implausible.ts';
import { implausibleSphere } from '../probe/calibration/implausibleSphere.ts';
import { appendToHistory, type HistoryLine, readHistory } from '../probe/calibration/readHistory.ts';
import { readSphereTouches, readTouches } from '../probe/calibration/readTouches.ts';
import { calibrateSphere, type SphereTouch } from '../probe/calibration/sphere.ts';
import type { CalibrationTouch, Reference } from '../probe/calibration/touches.ts';
import { type History, historyOf } from '../probe/calibration/trend.ts';
import { calibrationJson } from '../report/calibrationJson.ts';
import { calibrationNotices } from '../report/calibrationNotices.ts';
import { refusalText } from '../report/calibrationRefusal.ts';
import type { CalibrationReport, CalibrationReportHead } from '../report/calibrationReport.ts';
import { calibrationText } from '../report/calibrationText.ts';
import { historyJson, historyText } from '../report/historyText.ts';
import { styleFor } from '../report/style.ts';
import type { CalibrateOptions } from './calibrateOptions.ts';
import { appendEntry, type HistoryFile, historyEntry, historyFile } from './calibrationHistory.ts';
import {
  type CalibrationSettings,
  calibrationSettings,
  type Faults,
  readText,
} from './calibrationSettings.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';
import { touchesOf } from './touchesOf.ts';
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
  const file = options.history === null ? null : await historyFile(options.history, terminal);
  if (file !== null && 'faults' in file) return refuse(terminal, file.faults);
  const written = options.write ? writeAll(report, path, file, settings, terminal) : { said: [] };
  if ('faults' in written) return refuse(terminal, written.faults);
  const past = file === null ? null : withThis(file, historyEntry(report, path, file, settings));
  const style = styleFor(terminal.colour);
  if (options.format === 'json')
    terminal.out(calibrationJson(report, past === null ? {} : { history: historyJson(past) }));
  else {
    terminal.out(calibrationText(report, style, terminal.width));
    if (file !== null && past !== null)
      terminal.out(`\n${historyText(file.name, past, settings.show, style, terminal.width)}`);
    for (const said of written.said) terminal.out(`${said}\n`);
  }
  return calibrationNotices(report).some(({ severity }) => severity === 'error') ? 1 : 0;
}

/** Both or none, as far as can be foreseen: the history was read before anything is written. */
function writeAll(
  report: CalibrationReport,
  touches: string | null,
  file: HistoryFile | null,
  settings: CalibrationSettings,
  terminal: Terminal,
): { readonly said: readonly string[] } | Faults {
  const written = writeIntoProfile(report, touches, settings, terminal);
  if ('faults' in written || file === null) return 'faults' in written ? written : { said: [written.said] };
  const added = appendEntry(file, historyEntry(report, touches, file, settings), terminal);
  return typeof added === 'string'
    ? { said: [written.said, added] }
    : { faults: [...added.faults, written.said] };
}

/** The history as it is with this calibration in it. */
function withThis(file: HistoryFile, entry: HistoryLine): History {
  const read = readHistory(appendToHistory(file.text, file.entries, entry));
  if ('problems' in read) throw new Error('A history stays readable when a line is added.');
  return historyOf(read.entries);
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
