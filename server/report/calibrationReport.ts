import type { Calibration } from '../probe/calibration/calibrate.ts';
import type { FlatCalibration } from '../probe/calibration/flat.ts';
import type { SphereCalibration } from '../probe/calibration/sphere.ts';
import type { Reference } from '../probe/calibration/touches.ts';
import type { Asking } from './asking.ts';
import type { Quantities } from './quantities.ts';

/** What a report on a calibration says, whichever reference was touched. */
export type CalibrationReport = CalibrationReportHead &
  (
    | { readonly kind: 'round'; readonly result: Calibration; readonly reference: Reference }
    | { readonly kind: 'flat'; readonly result: FlatCalibration; readonly reference: Reference }
    | { readonly kind: 'sphere'; readonly result: SphereCalibration; readonly reference: Reference<'sphere'> }
  );

export interface CalibrationReportHead {
  /** Of the touches. */
  readonly path: string;
  readonly count: number;
  /** Rows that the person left out. */
  readonly leftOut: readonly number[];
  /** As the person reads lengths. */
  readonly show: Quantities;
  /** Actual diameter of the tip, mm; null: not stated. */
  readonly tipDiameter: number | null;
  /** Where the spread was taken from in case the touches do not say: the profile's key and what it is. */
  readonly statedSpread: string;
  readonly referenceUncertaintyStated: boolean;
  readonly asking: Asking;
}

/** What a person has to know beside the numbers. */
export interface Notice {
  readonly severity: 'error' | 'warning' | 'info';
  readonly message: string;
  readonly rows: readonly number[];
}
