import { resolve } from 'node:path';
import { sheetText } from '../report/sheetText.ts';
import { styleFor } from '../report/style.ts';
import { verificationOf } from '../report/verificationOf.ts';
import { verificationJson, verificationSheet } from '../report/verificationSheet.ts';
import { verificationTable } from '../report/verificationTable.ts';
import type { CalibrateOptions } from './calibrateOptions.ts';
import { calibrationSettings, noReference, readText } from './calibrationSettings.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

/** `calibrate TOUCHES.csv --verify`: does the profile's calibration still hold? Exit status 1: it is to be made again. */
export async function verifyTouches(
  name: string,
  options: CalibrateOptions,
  terminal: Terminal,
): Promise<ExitStatus> {
  const settings = calibrationSettings(options, name === '-' ? null : resolve(terminal.cwd, name), terminal);
  if ('faults' in settings) return refuse(terminal, settings.faults);
  const { reference, profile, show } = settings;
  if (reference === null) return refuse(terminal, [noReference]);
  const read = await readText(name, terminal);
  if ('faults' in read) return refuse(terminal, read.faults);
  const result = verificationOf(name, read.text, profile, { ...settings, reference });
  if ('faults' in result) return refuse(terminal, result.faults);
  terminal.out(
    options.format === 'json'
      ? verificationJson(result)
      : sheetText(verificationSheet(name, result, show), styleFor(terminal.colour), terminal.width),
  );
  return result.verdict === 'calibrate-again' ? 1 : 0;
}

/** `calibrate --verify --format csv`: the touches that are wanted, to fill in. */
export function verificationToFill(options: CalibrateOptions, terminal: Terminal): ExitStatus {
  const settings = calibrationSettings(options, null, terminal);
  if ('faults' in settings) return refuse(terminal, settings.faults);
  terminal.out(verificationTable(settings.profile, settings.show.units));
  return 0;
}
