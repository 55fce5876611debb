import type { Setup } from '../part/setup.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { MachineValues } from './machineValues.ts';
import type { VirtualProbe } from './virtualProbe.ts';

/** What all runs of one program in one setup share. */
export interface MachineParts {
  readonly setup: Setup;
  readonly values: MachineValues;
  readonly probe: VirtualProbe;
  /** Tool number of the probe; null: whatever is in the spindle is the probe. */
  readonly probeTool: number | null;
  /** Spindle angle of the calibration, degrees. */
  readonly calibratedAt: number;
  readonly dialect: DialectName;
  readonly assumedUnit: 'mm' | 'inch';
  /** Lines whose messages the undisturbed run shows; null: this is that run. */
  readonly usualMessages: ReadonlySet<number> | null;
}
