import type { Routine, Units } from '../../server/routines/routine.ts';
import type { Form } from '../../server/routines/writing.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';

export interface Case {
  readonly routine: Routine;
  readonly name: string;
  readonly dialect: DialectName;
  readonly form: Form;
  readonly units: Units;
}

/** Each routine in each dialect, form and unit. */
export function everyCase(routines: readonly Routine[]): Case[] {
  return routines.flatMap((routine) =>
    (['rs274ngc', 'macro'] as const).flatMap((dialect) =>
      (['inline', 'subroutine'] as const).flatMap((form) =>
        (['mm', 'inch'] as const).map((units) => ({ routine, name: routine.name, dialect, form, units })),
      ),
    ),
  );
}
