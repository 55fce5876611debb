/** What every fit says about itself; lengths in the unit of the points. */
export interface FitQuality {
  /** Signed distance of each point from what was fitted, in the order of the points. */
  readonly residuals: readonly number[];
  /** Largest less smallest residual. */
  readonly form: number;
  /** s = √(Σ residual² / degrees of freedom); null where no point is to spare. */
  readonly standardDeviation: number | null;
  readonly degreesOfFreedom: number;
  /** Of the parameters, named by each fit, in their order; null where s is. */
  readonly covariance: readonly (readonly number[])[] | null;
  /** Condition number of the design matrix with its columns scaled to unit length. */
  readonly condition: number;
  /** What the layout of the points does badly, a sentence each. */
  readonly cautions: readonly string[];
}

/** Why nothing can be fitted to these points, as a sentence. */
export interface Refusal {
  readonly refusal: string;
}

/** From here on a fit says that the points see its parameters badly: `error-model.md` section 3 draws the line at the same place. */
export const fairCondition = 20;

/** Beyond this, what is fitted is rounding and noise. */
export const hopelessCondition = 1e7;
