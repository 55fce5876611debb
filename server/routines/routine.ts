import type { Probe } from '../probe/probe.ts';
import type { Profile } from '../profile/profile.ts';
import type { Expression } from './expression.ts';
import type { Motion } from './motion.ts';
import type { NominalPart } from './nominalPart.ts';
import type { Pace } from './pace.ts';

export type Units = 'mm' | 'inch';
export type InputValue = string | number | boolean;

/** What defaults and limits depend on. Lengths mm, feeds mm/min. */
export interface Facts {
  readonly profile: Profile;
  readonly probe: Probe;
  /** With the default agreement, or with the one chosen. */
  readonly pace: Pace;
}

/** One thing that a person says about the feature. Lengths in mm, feeds in mm/min, angles in degrees. */
export interface Input {
  readonly name: string;
  readonly title: string;
  readonly help: string;
  readonly type: 'length' | 'angle' | 'count' | 'feed' | 'choice' | 'flag' | 'text';
  readonly default: (facts: Facts) => InputValue;
  readonly least?: (facts: Facts) => number;
  readonly greatest?: (facts: Facts) => number;
  readonly choices?: readonly Choice[];
  /** Asked for one by one; the others are offered with their default. */
  readonly required: boolean;
  /** More or fewer touches of the same feature, or touches further apart: another value may make the result better. */
  readonly isEffort?: true;
  /** A subroutine takes it as an argument, in the order of declaration. Only lengths. */
  readonly argument: boolean;
}

export interface Choice {
  readonly value: string;
  readonly title: string;
}

export interface Result {
  readonly name: string;
  readonly title: string;
  /** A form is how much something differs from what it should look like, a probe's property what `calibrate` judges: their errors are not stated. */
  readonly kind: 'coordinate' | 'size' | 'angle' | 'form' | 'probe';
}

/** `left` must be at least `right`: refused when the routine is written, and looked at by a subroutine when it is called. */
export interface Condition {
  readonly inputs: readonly string[];
  readonly left: Expression;
  readonly right: Expression;
  /** A sentence for the person who fills in the form. */
  readonly message: string;
  /** A few words for the control's screen. */
  readonly short: string;
}

/** A routine for one set of inputs: what its motion is made from. */
export interface Plan extends Facts {
  readonly units: Units;
  /** Half the actual tip diameter, mm: what keeps the ball clear of things. */
  readonly tipRadius: number;
  /** The input as a value of the motion: a variable where a subroutine could take it as an argument. */
  input(name: string): Expression;
  /** The input as a number, mm or degrees, as given when the routine is written. */
  amount(name: string): number;
  choice(name: string): string;
  /** 'active' or `G54` to `G59`; 'active' too where the routine writes none. */
  readonly workOffset: string;
  /** A length in words, in the units of the routine: "15 mm". */
  say(mm: number): string;
}

/** One datum feature, declared once: form, help, documentation, both dialects and the expected error come from here. */
export interface Routine {
  readonly name: string;
  readonly title: string;
  readonly summary: string;
  readonly subroutine: { readonly name: string; readonly number: number };
  readonly inputs: readonly Input[];
  readonly results: readonly Result[];
  /** What must be so before it starts, as sentences. */
  readonly start: (plan: Plan) => readonly string[];
  readonly cautions: readonly string[];
  readonly conditions: (plan: Plan) => readonly Condition[];
  readonly part: (plan: Plan) => NominalPart;
  readonly motion: (plan: Plan, motion: Motion) => void;
}
