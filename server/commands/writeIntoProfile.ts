import { dirname, relative, resolve } from 'node:path';
import { ruleIds } from '../checks/registry.ts';
import { writeCalibration } from '../profile/writeCalibration.ts';
import { calibrationEntry, unfitForProfile } from '../report/calibrationEntry.ts';
import type { CalibrationReport } from '../report/calibrationReport.ts';
import { fineLength } from '../report/fineLength.ts';
import type { CalibrationSettings, Faults } from './calibrationSettings.ts';
import { shownPath } from './paths.ts';
import { type Coding, decodeProgram, encodeProgram } from './programText.ts';
import type { Terminal } from './terminal.ts';

/**
 * Puts a calibration into the profile: the named or nearest one, else a new one beside the touches. Nothing is written
 * where the profile would have a fault afterwards. A profile that names no history gets the name of this one.
 * @param touches absolute path of the touches; null: standard input
 * @param history absolute path of the history that the calibration is added to; null: none
 */
export function writeIntoProfile(
  report: CalibrationReport,
  touches: string | null,
  history: string | null,
  settings: CalibrationSettings,
  terminal: Terminal,
): { readonly said: readonly string[] } | Faults {
  const shown = shownPath(terminal.cwd, settings.profilePath);
  const faults = [...profileFaults(report, settings, shown)];
  if (faults.length > 0) return { faults };
  const before = textBefore(settings, shown, terminal);
  if ('faults' in before) return before;
  const beside = (path: string | null) =>
    path === null ? null : relative(dirname(settings.profilePath), path).replaceAll('\\', '/');
  const { date, temperature } = settings;
  const placed = { date, temperature, touches: beside(touches) };
  const written = writeCalibration(before.text, calibrationEntry(report, placed), {
    tipDiameter: settings.tipGiven ? settings.tipDiameter : null,
    history: beside(history),
    units: settings.show.units,
    path: shown,
    ruleIds,
  });
  if ('problems' in written)
    return {
      faults: written.problems.map(
        ({ message }) => `${shown}: nothing was written, the profile would be impossible: ${message}`,
      ),
    };
  const problem = terminal.files.replace(settings.profilePath, encodeProgram(written.text, before.coding));
  if (problem !== null) return { faults: [`${shown}: cannot be written: ${problem.problem}.`] };
  const said = `Written into ${shown}${settings.profileExists ? '' : ', a new file'}.`;
  return { said: [said, ...otherHistory(history, settings, shown)] };
}

/** The profile goes on naming the history that it names; with another one beside it a trend would have gaps. */
function otherHistory(history: string | null, settings: CalibrationSettings, shown: string): string[] {
  const stated = settings.profile.probe.history;
  if (history === null || stated === null) return [];
  if (resolve(dirname(settings.profilePath), stated) === history) return [];
  return [`${shown} names another history, ${stated}: this calibration was not added there.`];
}

/** Tips nearer to each other than this are one, mm: written in mm here and rounded in inches there. */
const sameTip = 5e-4;

/** What must not get into a profile, or would say something else there. */
function* profileFaults(
  report: CalibrationReport,
  { profile, tipGiven, show }: CalibrationSettings,
  shown: string,
): Generator<string> {
  const { tipDiameter } = report;
  const stated = profile.source('probe.tipDiameter') === 'profile' ? profile.probe.tipDiameter : null;
  if (tipGiven && tipDiameter !== null && stated !== null && Math.abs(stated - tipDiameter) > sameTip)
    yield `${shown}: nothing was written: --tip-diameter is ${fineLength(tipDiameter, show.units)} and probe.tipDiameter ${fineLength(stated, show.units)}. Put the right one into the profile first.`;
  const reason = unfitForProfile(report);
  if (reason !== null) yield `nothing was written: ${reason}`;
}

function textBefore(
  { profilePath, profileExists }: CalibrationSettings,
  shown: string,
  terminal: Terminal,
): { readonly text: string; readonly coding: Coding } | Faults {
  if (!profileExists) return { text: '', coding: { encoding: 'utf-8', mark: false } };
  const read = terminal.files.read(profilePath);
  if ('problem' in read) return { faults: [`${shown}: cannot be read: ${read.problem}.`] };
  const decoded = decodeProgram(read.bytes);
  if (decoded === null) return { faults: [`${shown}: the profile is no text.`] };
  const { text, ...coding } = decoded;
  return { text, coding };
}
