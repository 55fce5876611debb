/** What the client asks about calibrations. Sizes are in the unit of the profile that holds for `uri`. */
import type { Page } from './requests.ts';

export const calibrate = 'probewright/calibrate';
export const planCalibration = 'probewright/planCalibration';
export const verifyCalibration = 'probewright/verifyCalibration';
export const planVerification = 'probewright/planVerification';
export const showProbe = 'probewright/showProbe';

export type TouchedKind = 'ring' | 'plug' | 'gap' | 'block' | 'sphere';

export interface CalibrateParams {
  /** Of the file of the touches, and its text. */
  readonly uri: string;
  readonly text: string;
  readonly kind: TouchedKind;
  readonly size: number;
  /** k = 2; null: not stated. */
  readonly expandedUncertainty: number | null;
  /** Actual diameter of the tip, for a profile that states none; null: not asked yet. */
  readonly tipDiameter: number | null;
  /** Where the machine stands, such as 2025-03-31. */
  readonly day: string;
}

export interface Refused {
  readonly kind: 'refused';
  readonly problems: readonly string[];
}

export type CalibrateResult =
  | Refused
  /** The profile states no tip, and none was given. */
  | { readonly kind: 'tip-wanted' }
  | {
      readonly kind: 'calibrated';
      readonly page: Page;
      /** The result in a line. */
      readonly summary: string;
      readonly profile: ProfileWithIt;
    };

/** The profile as it would be with the calibration in it; `uri` null: a new file, in the folder of the touches. */
export type ProfileWithIt =
  | {
      readonly kind: 'text';
      readonly uri: string | null;
      readonly text: string;
      /** The history that the profile names, with the calibration in it; null: it names none, or has it already. */
      readonly history: { readonly uri: string; readonly text: string } | null;
    }
  | { readonly kind: 'impossible'; readonly message: string };

export type VerifyCalibrationParams = Omit<CalibrateParams, 'tipDiameter' | 'day'>;

export type VerifyCalibrationResult =
  | Refused
  | {
      readonly kind: 'verified';
      readonly page: Page;
      /** The verdict in a sentence. */
      readonly summary: string;
      readonly holds: boolean;
    };

export interface PlanVerificationParams {
  readonly uri: string;
}

/** CSV to fill in. */
export interface PlanVerificationResult {
  readonly table: string;
}

export interface PlanCalibrationParams {
  readonly uri: string;
  readonly kind: 'ring' | 'plug' | 'sphere';
  readonly touches: number;
  /** Degrees; empty: as the machine can. */
  readonly spindles: readonly number[];
}

export type PlanCalibrationResult =
  | Refused
  /** `table`: CSV to fill in. */
  | { readonly kind: 'planned'; readonly page: Page; readonly table: string };

export interface ShowProbeParams {
  readonly uri: string;
  readonly day: string;
}
