import type { DatumErrorResult, TouchErrorResult } from '../analysis/error.ts';
import type { Datum, NotKnown, Touch } from '../analysis/model.ts';
import type { Decision } from '../probe/decision.ts';
import type { Outlook } from '../probe/improvement.ts';
import type { MonteCarloResult } from '../probe/monteCarlo.ts';
import type { Agreement } from '../probe/monteCarloAgreement.ts';
import type { NotDrawn } from '../probe/monteCarloDerived.ts';
import type { Profile } from '../profile/profile.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Quantities } from './quantities.ts';

/** What a program's touches and datums are worth with a probe. */
export interface ErrorReport {
  readonly path: string;
  readonly dialect: DialectName;
  readonly profile: Profile;
  readonly touches: readonly TouchWithError[];
  readonly datums: readonly DatumWithError[];
  /** Values left in parameters for somebody to read; the target is the parameter. */
  readonly results: readonly DatumWithError[];
  /** Where the analysis stopped following. */
  readonly notKnown: readonly NotKnown[];
}

/** `error` is null where it is not known; `show` speaks the units of the program there. */
export interface TouchWithError {
  readonly touch: Touch;
  readonly error: TouchErrorResult | null;
  readonly show: Quantities;
}

export interface DatumWithError {
  readonly datum: Datum;
  readonly error: DatumErrorResult | null;
  readonly show: Quantities;
  readonly answers: DatumAnswers;
}

/** What a person asked about a datum beside its error; null: not asked, or not known. */
export interface DatumAnswers {
  readonly decided: { readonly ratio: number; readonly decision: Decision; readonly outlook: Outlook } | null;
  readonly drawn:
    | { readonly seed: number; readonly result: MonteCarloResult; readonly agreement: Agreement }
    | NotDrawn
    | null;
}
