import { calibrationPage } from '../report/calibrationPage.ts';
import { styleFor } from '../report/style.ts';
import type { CalibrateOptions } from './calibrateOptions.ts';
import { calibrateTouches } from './calibrateTouches.ts';
import { showHistory } from './calibrationHistory.ts';
import { designTouches } from './designTouches.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';
import { verificationToFill, verifyTouches } from './verifyTouches.ts';

/** `probewright calibrate`: from touches to the effective diameter, and what goes before and after. */
export async function calibrate(
  touches: string | null,
  options: CalibrateOptions,
  terminal: Terminal,
): Promise<ExitStatus> {
  const fault = combinationFault(touches, options);
  if (fault !== null) return refuse(terminal, [fault]);
  if (options.method) {
    terminal.out(calibrationPage.replace(/^#+ .*/gm, styleFor(terminal.colour).bold));
    return 0;
  }
  if (options.design !== null) return designTouches(options, terminal);
  if (options.verify)
    return touches === null
      ? verificationToFill(options, terminal)
      : verifyTouches(touches, options, terminal);
  if (touches !== null) return calibrateTouches(touches, options, terminal);
  return showHistory(options.history ?? '', options, terminal);
}

/** Options that make no sense together; null: they do. */
function combinationFault(touches: string | null, options: CalibrateOptions): string | null {
  const { method, design, verify, history, write, format, spindle, picture } = options;
  if (method) return null;
  if (picture !== null && (verify || design !== null || (touches === null && history === null)))
    return '--picture draws a calibration or a history: name the CSV file with the touches, or --history FILE, without --verify and --design.';
  if (design !== null)
    return touches === null && !verify && !write && history === null
      ? null
      : '--design comes before touching: it takes no touches, and no --verify, --write or --history.';
  if (spindle !== null)
    return '--spindle goes with --design; touches state their angle in the column spindle.';
  if (format === 'csv')
    return verify && touches === null && !write && history === null
      ? null
      : '--format csv goes with --design, or with --verify before touching.';
  if (verify && (write || history !== null))
    return '--verify changes nothing: it takes no --write and no --history. Calibrate again to have a new entry.';
  if (touches !== null) return null;
  if (history !== null && !write && !verify) return null;
  return 'name the CSV file with the touches; or --design N before touching, --verify --format csv, --history FILE, --method.';
}
