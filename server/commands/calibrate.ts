import type { CalibrateOptions } from './calibrateOptions.ts';
import { calibrateTouches } from './calibrateTouches.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

/** `probewright calibrate`: from touches to the effective diameter, and all that goes with it. */
export async function calibrate(
  touches: string | null,
  options: CalibrateOptions,
  terminal: Terminal,
): Promise<ExitStatus> {
  if (touches === null) return refuse(terminal, ['name the CSV file with the touches.']);
  return calibrateTouches(touches, options, terminal);
}
