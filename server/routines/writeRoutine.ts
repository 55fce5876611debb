import type { Profile } from '../profile/profile.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { Motion } from './motion.ts';
import { planOf } from './plan.ts';
import type { InputProblem } from './readInputs.ts';
import type { InputValue, Routine, Units } from './routine.ts';
import { tipSource } from './tipDiameter.ts';
import { noVariablesLeft, writeMacro } from './writeMacro.ts';
import { writeRs274ngc } from './writeRs274ngc.ts';
import type { Form, Writing } from './writing.ts';

export interface WriteOptions {
  readonly profile: Profile;
  readonly dialect: DialectName;
  readonly form: Form;
  /** Of the inputs and of the program. */
  readonly units: Units;
  /** Names as `#100` or `#<name>`; none of them is used by the routine. */
  readonly usedParameters?: ReadonlySet<string>;
  /** N and O numbers and O names of the program. */
  readonly usedLabels?: ReadonlySet<number | string>;
  readonly lineEnding?: string;
  /** A complete program: with a call where the form is a subroutine, and with its end. */
  readonly standAlone?: boolean;
}

export type Written =
  | {
      readonly text: string;
      /** The parameters, with their #, in which the results are left. */
      readonly parameters: ReadonlyMap<string, string>;
    }
  | { readonly problems: readonly InputProblem[] };

/** The routine as a program text, every line ended; or what is wrong with the inputs or the profile. */
export function writeRoutine(
  routine: Routine,
  inputs: Readonly<Record<string, InputValue>>,
  options: WriteOptions,
): Written {
  const { profile, dialect, units } = options;
  const planned = planOf(routine, inputs, profile, units);
  if ('problems' in planned) return planned;
  const motion = new Motion(planned.plan.pace);
  routine.motion(planned.plan, motion);
  const writing: Writing = {
    ...planned,
    routine,
    steps: motion.steps,
    tip: tipSource(profile, dialect, units),
    form: options.form,
    standAlone: options.standAlone ?? false,
    usedParameters: takenParameters(profile, options.usedParameters),
    usedLabels: options.usedLabels ?? new Set(),
  };
  const found = dialect === 'macro' ? writeMacro(writing) : writeRs274ngc(writing);
  if (found === null) return { problems: [{ inputs: [], message: noVariablesLeft(profile) }] };
  const ending = options.lineEnding ?? '\n';
  const text = found.lines.map((line) => line + ending).join('');
  return { text, parameters: found.parameters };
}

/** What the program uses, and the variable that the shop keeps the diameter in, whether the routine reads it or not. */
function takenParameters(
  { effectiveDiameterParameter }: Profile,
  used: ReadonlySet<string> = new Set(),
): ReadonlySet<string> {
  return effectiveDiameterParameter === null ? used : new Set([...used, effectiveDiameterParameter]);
}
