import type { datumError, touchError } from '../analysis/error.ts';
import type { Datum, NotKnown, Touch } from '../analysis/model.ts';
import type { Profile } from '../profile/profile.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Quantities } from './quantities.ts';

export type TouchError = NonNullable<ReturnType<typeof touchError>>;
export type DatumError = NonNullable<ReturnType<typeof datumError>>;

/** What a program's touches and datums are worth with a probe; an error of null is not known. */
export interface ErrorReport {
  readonly path: string;
  readonly dialect: DialectName;
  readonly profile: Profile;
  readonly touches: readonly { readonly touch: Touch; readonly error: TouchError | null }[];
  readonly datums: readonly {
    readonly datum: Datum;
    readonly error: DatumError | null;
    /** In the units of the program there. */
    readonly show: Quantities;
  }[];
  /** Where the analysis stopped following. */
  readonly notKnown: readonly NotKnown[];
}
