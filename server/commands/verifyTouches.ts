import { resolve } from 'node:path';
import { implausibleDirections, implausibleSize } from '../probe/calibration/implausible.ts';
import { readTouches } from '../probe/calibration/readTouches.ts';
import { verifyCalibration } from '../probe/calibration/verify.ts';
import { probeOf } from '../profile/probeOf.ts';
import { byOptions } from '../report/asking.ts';
import { refusalText } from '../report/calibrationRefusal.ts';
import { sheetText } from '../report/sheetText.ts';
import { styleFor } from '../report/style.ts';
import { touchesOf } from '../report/touchesOf.ts';
import { verificationJson, verificationSheet } from '../report/verificationSheet.ts';
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
  if (reference.kind === 'sphere')
    return refuse(terminal, ['--verify takes touches of a ring, a plug, a gap or a block, not of a sphere.']);
  const kept = { ...reference, kind: reference.kind };
  const read = await readText(name, terminal);
  if ('faults' in read) return refuse(terminal, read.faults);
  const found = touchesOf(name, readTouches(read.text, settings.millimetres), settings.without);
  if ('faults' in found) return refuse(terminal, found.faults);
  const { touches } = found;
  const implausible = touches.length < 3 ? null : implausibleDirections(touches, kept);
  const words = (refusal: Parameters<typeof refusalText>[0]) =>
    refuse(
      terminal,
      refusalText(refusal, kept, show, byOptions).map((text) => `${name}: ${text}`),
    );
  // Touches of one axis stand on a line, as they should.
  if (implausible !== null && implausible.kind !== 'collinear') return words(implausible);
  const result = verifyCalibration(
    touches,
    kept,
    probeOf(profile),
    profile.probe.calibration?.spindle ?? null,
  );
  if ('kind' in result)
    return result.kind === 'not-calibrated'
      ? refuse(terminal, [
          `${profile.path ?? 'the built-in profile'}: there is no calibration to compare with (probe.calibration.effectiveDiameter).`,
        ])
      : words(result);
  const radius = ((profile.probe.calibration?.effectiveDiameter ?? 0) + result.drift) / 2;
  const size = implausibleSize(
    radius,
    kept,
    settings.tipDiameter ?? profile.probe.calibration?.effectiveDiameter ?? null,
  );
  if (size !== null) return words(size);
  terminal.out(
    options.format === 'json'
      ? verificationJson(result)
      : sheetText(verificationSheet(name, result, show), styleFor(terminal.colour), terminal.width),
  );
  return result.verdict === 'calibrate-again' ? 1 : 0;
}
