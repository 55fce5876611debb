import { dirname, relative, resolve } from 'node:path';
import { appendToHistory, type HistoryLine, readHistory } from '../probe/calibration/readHistory.ts';
import { type History, historyOf } from '../probe/calibration/trend.ts';
import type { CalibrationReport } from '../report/calibrationReport.ts';
import { historyEntry } from '../report/historyEntry.ts';
import { historyPicture } from '../report/historyPicture.ts';
import { historyJson, historySheet } from '../report/historySheet.ts';
import { sheetText } from '../report/sheetText.ts';
import { styleFor } from '../report/style.ts';
import type { CalibrateOptions } from './calibrateOptions.ts';
import {
  type CalibrationSettings,
  calibrationSettings,
  type Faults,
  readText,
} from './calibrationSettings.ts';
import { type Coding, encodeProgram } from './programText.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';
import { namedPicture, writePicture } from './writePicture.ts';

/** A history file as it stands. */
export interface HistoryFile {
  readonly name: string;
  readonly path: string;
  readonly text: string;
  readonly coding: Coding;
  readonly entries: readonly HistoryLine[];
}

/** `calibrate --history FILE` alone: the calibrations and their trend. */
export async function showHistory(
  name: string,
  options: CalibrateOptions,
  terminal: Terminal,
): Promise<ExitStatus> {
  if (terminal.files.look(resolve(terminal.cwd, name)) === null)
    return refuse(terminal, [
      `${name}: no such file. A calibration with --history ${name} --write begins it.`,
    ]);
  const settings = calibrationSettings(options, resolve(terminal.cwd, name), terminal);
  if ('faults' in settings) return refuse(terminal, settings.faults);
  const file = await historyFile(name, terminal);
  if ('faults' in file) return refuse(terminal, file.faults);
  if (file.entries.length === 0) return refuse(terminal, [`${name}: no calibration is in it yet.`]);
  const history = historyOf(file.entries);
  const drawn = options.picture === null ? null : historyDrawn(options.picture, history, settings, terminal);
  if (drawn !== null && 'faults' in drawn) return refuse(terminal, drawn.faults);
  terminal.out(
    options.format === 'json'
      ? `${JSON.stringify(historyJson(history), null, 2)}\n`
      : sheetText(historySheet(name, history, settings.show), styleFor(terminal.colour), terminal.width),
  );
  if (drawn !== null && options.format === 'text') terminal.out(`${drawn.said}\n`);
  return 0;
}

function historyDrawn(
  name: string,
  { counted }: History,
  { show }: CalibrationSettings,
  terminal: Terminal,
): { readonly said: string } | Faults {
  const picture = namedPicture(name, historyPicture(counted, show.units));
  return 'faults' in picture ? picture : writePicture(picture, terminal);
}

/** A file that is not there yet is an empty history; a broken one is refused as it stands. */
export async function historyFile(name: string, terminal: Terminal): Promise<HistoryFile | Faults> {
  const path = resolve(terminal.cwd, name);
  if (terminal.files.look(path) === null)
    return { name, path, text: '', coding: { encoding: 'utf-8', mark: false }, entries: [] };
  const read = await readText(name, terminal);
  if ('faults' in read) return read;
  const history = readHistory(read.text);
  if ('problems' in history)
    return {
      faults: history.problems.map(
        ({ line, message }) => `${name}${line === 0 ? '' : `:${line}`}: ${message} Nothing was written.`,
      ),
    };
  return { name, path, ...read, entries: history.entries };
}

/** What this file is to hold of a calibration from those touches. */
export function entryFor(
  file: HistoryFile,
  report: CalibrationReport,
  touches: string | null,
  { date }: CalibrationSettings,
): HistoryLine {
  return historyEntry(report, {
    date,
    touches: touches === null ? null : relative(dirname(file.path), touches).replaceAll('\\', '/'),
  });
}

/** Puts one more calibration at the end; all lines before it stay as they are. */
export function appendEntry(file: HistoryFile, entry: HistoryLine, terminal: Terminal): string | Faults {
  const text = appendToHistory(file.text, file.entries, entry);
  if (text === file.text && file.text !== '') return `${file.name} has this calibration already.`;
  const problem = terminal.files.replace(file.path, encodeProgram(text, file.coding));
  if (problem !== null) return { faults: [`${file.name}: cannot be written: ${problem.problem}.`] };
  return `Added to ${file.name}.`;
}
