import { dirname, resolve } from 'node:path';
import { appendToHistory, type HistoryLine, readHistory } from '../probe/calibration/readHistory.ts';
import { type History, historyOf } from '../probe/calibration/trend.ts';
import { calibrationJson } from '../report/calibrationJson.ts';
import { calibrationNotices } from '../report/calibrationNotices.ts';
import { calibrationOf } from '../report/calibrationOf.ts';
import type { CalibrationReport } from '../report/calibrationReport.ts';
import { calibrationSheet } from '../report/calibrationSheet.ts';
import { historyJson, historySheet } from '../report/historySheet.ts';
import { sheetText } from '../report/sheetText.ts';
import { styleFor } from '../report/style.ts';
import type { CalibrateOptions } from './calibrateOptions.ts';
import { appendEntry, entryFor, type HistoryFile, historyFile } from './calibrationHistory.ts';
import {
  type CalibrationSettings,
  calibrationSettings,
  type Faults,
  noReference,
  readText,
} from './calibrationSettings.ts';
import { shownPath } from './paths.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';
import { writeIntoProfile } from './writeIntoProfile.ts';
import { drawPicture, writePicture } from './writePicture.ts';

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
  const { reference } = settings;
  if (reference === null) return refuse(terminal, [noReference]);
  const report = calibrationOf(name, read.text, { ...settings, reference });
  if ('faults' in report) return refuse(terminal, report.faults);
  const picture = options.picture === null ? null : drawPicture(options.picture, report, settings);
  if (picture !== null && 'faults' in picture) return refuse(terminal, picture.faults);
  const history = options.history ?? (options.write ? statedHistory(settings, terminal) : null);
  const file = history === null ? null : await historyFile(history, terminal);
  if (file !== null && 'faults' in file) return refuse(terminal, file.faults);
  const written = options.write ? writeAll(report, path, file, settings, terminal) : { said: [] };
  if ('faults' in written) return refuse(terminal, written.faults);
  const drawn = picture === null ? null : writePicture(picture, terminal);
  if (drawn !== null && 'faults' in drawn) return refuse(terminal, [...drawn.faults, ...written.said]);
  const past = file === null ? null : withThis(file, entryFor(file, report, path, settings));
  const style = styleFor(terminal.colour);
  if (options.format === 'json')
    terminal.out(calibrationJson(report, past === null ? {} : { history: historyJson(past) }));
  else {
    terminal.out(sheetText(calibrationSheet(report), style, terminal.width));
    if (file !== null && past !== null)
      terminal.out(`\n${sheetText(historySheet(file.name, past, settings.show), style, terminal.width)}`);
    for (const said of [...written.said, ...(drawn === null ? [] : [drawn.said])]) terminal.out(`${said}\n`);
  }
  return calibrationNotices(report).some(({ severity }) => severity === 'error') ? 1 : 0;
}

/** The history that the profile names, as a person would name it from here. */
function statedHistory({ profile, profilePath }: CalibrationSettings, { cwd }: Terminal): string | null {
  const { history } = profile.probe;
  return history === null ? null : shownPath(cwd, resolve(dirname(profilePath), history));
}

/** Both or none, as far as can be foreseen: the history was read before anything is written. */
function writeAll(
  report: CalibrationReport,
  touches: string | null,
  file: HistoryFile | null,
  settings: CalibrationSettings,
  terminal: Terminal,
): { readonly said: readonly string[] } | Faults {
  const written = writeIntoProfile(report, touches, file?.path ?? null, settings, terminal);
  if ('faults' in written || file === null) return written;
  const added = appendEntry(file, entryFor(file, report, touches, settings), terminal);
  return typeof added === 'string'
    ? { said: [...written.said, added] }
    : { faults: [...added.faults, ...written.said] };
}

/** The history as it is with this calibration in it. */
function withThis(file: HistoryFile, entry: HistoryLine): History {
  const read = readHistory(appendToHistory(file.text, file.entries, entry));
  if ('problems' in read) throw new Error('A history stays readable when a line is added.');
  return historyOf(read.entries);
}
