import type { DialectName } from '../syntax/dialect.ts';
import { type Along, targetsOn } from './along.ts';
import { type Expression, variablesOf } from './expression.ts';
import type { Step } from './motion.ts';
import type { Values } from './readInputs.ts';
import type { Condition, Input, Plan, Routine } from './routine.ts';
import type { TipSource } from './tipDiameter.ts';
import { inUnits } from './units.ts';

export type Form = 'inline' | 'subroutine';

/** All that a dialect's writer needs: what to write, not how. */
export interface Writing {
  readonly routine: Routine;
  readonly plan: Plan;
  readonly values: Values;
  readonly steps: readonly Step[];
  readonly tip: TipSource;
  readonly form: Form;
  /** With a call of the subroutine, and the program's end. */
  readonly standAlone: boolean;
  readonly usedParameters: ReadonlySet<string>;
  readonly usedLabels: ReadonlySet<number | string>;
}

export interface WrittenLines {
  readonly lines: readonly string[];
  /** The parameters, with their #, in which the results are left. */
  readonly parameters: ReadonlyMap<string, string>;
}

export function resultNames(
  { routine, steps }: Writing,
  nameOf: (result: string) => string,
): ReadonlyMap<string, string> {
  const set = new Set(steps.flatMap((step) => (step.kind === 'set' ? [step.name] : [])));
  const found = routine.results.filter(({ name }) => set.has(name));
  return new Map(found.map(({ name }) => [name, nameOf(name)]));
}

/** The inputs that the motion uses as variables, in order: a subroutine's arguments. */
export function argumentsOf({ routine, plan, steps }: Writing): readonly Input[] {
  const used = new Set(steps.flatMap(namesIn));
  for (const condition of routine.conditions(plan))
    for (const name of [...variablesOf(condition.left), ...variablesOf(condition.right)]) used.add(name);
  return routine.inputs.filter((input) => input.argument && used.has(input.name));
}

/** What a subroutine looks at when it is called: its arguments' limits, and the routine's own conditions on them. */
export function calledConditions(writing: Writing): readonly Condition[] {
  const { plan, routine } = writing;
  const taken = argumentsOf(writing);
  const limits = taken.flatMap((input): Condition[] => {
    const [least, greatest] = [input.least?.(plan), input.greatest?.(plan)];
    const own = { inputs: [input.name], message: '' };
    const value = plan.input(input.name);
    const name = input.title.toLowerCase();
    return [
      ...(least === undefined
        ? []
        : [
            {
              ...own,
              left: value,
              right: { kind: 'length' as const, mm: least },
              short: `${name} too small`,
            },
          ]),
      ...(greatest === undefined
        ? []
        : [
            {
              ...own,
              left: { kind: 'length' as const, mm: greatest },
              right: value,
              short: `${name} too large`,
            },
          ]),
    ];
  });
  const names = new Set(taken.map((input) => input.name));
  const uses = (condition: Condition) =>
    [...variablesOf(condition.left), ...variablesOf(condition.right)].some((name) => names.has(name));
  return [...limits, ...routine.conditions(plan).filter(uses)];
}

/** The value of an argument as the form gave it, in the units of the routine. */
export function argumentValue({ plan }: Writing, input: Input): number {
  return inUnits(plan.amount(input.name), plan.units);
}

/** Only rs274ngc keeps a rotation in a work offset (common practice, no source). */
export function writes({ steps }: Pick<Writing, 'steps'>, dialect: DialectName): boolean {
  return steps.some(({ kind }) => kind === 'write' || (kind === 'turn-offset' && dialect === 'rs274ngc'));
}

/** Which coordinates of the start the motion and its ways out use. */
export function startsUsed({ steps }: Writing): readonly ('x' | 'y' | 'z')[] {
  const ways = steps.flatMap((step) => ('retreat' in step ? step.retreat.moves.flat() : []));
  const used = new Set([...steps.flatMap(namesIn), ...ways.flatMap(({ to }) => variablesOf(to))]);
  return (['x', 'y', 'z'] as const).filter((axis) => used.has(`start${axis.toUpperCase()}`));
}

function namesIn(step: Step): string[] {
  switch (step.kind) {
    case 'note':
      return [];
    case 'set':
      return variablesOf(step.value);
    case 'guard':
      return namesOn(step.along, step.to);
    case 'search':
      return [...namesOn(step.along, step.from), ...namesOn(step.along, step.end)];
    case 'measure':
      return namesOn(step.along, step.found);
    case 'back':
      return step.targets.flatMap(({ to }) => variablesOf(to));
    case 'turn-offset':
      return variablesOf(step.degrees);
    case 'write':
      return step.datums.flatMap(({ at, measured, becomes }) => [at, measured, becomes].flatMap(variablesOf));
    case 'judge':
      return [...variablesOf(step.left), ...variablesOf(step.right)];
    case 'tool-length':
      return variablesOf(step.by);
    case 'orient':
    case 'index':
    case 'log':
      return [];
  }
}

function namesOn(along: Along, place: Expression): string[] {
  return targetsOn(along, place).flatMap(({ to }) => variablesOf(to));
}

/** A step that may fail. */
export type Failing = Step & { kind: 'guard' | 'search' | 'measure' };

/** What went wrong at a step, for the control's screen. */
export function failureText(step: Failing, length: 'long' | 'short'): string {
  const { where } = step.retreat;
  switch (step.kind) {
    case 'guard':
      return length === 'short' ? `way blocked in ${where}` : `the tip met something on its way in ${where}`;
    case 'search':
      return length === 'short'
        ? `no surface or probe on: ${where}`
        : `no surface in ${where}, or the probe was on before it moved`;
    case 'measure':
      return length === 'short' ? `touches disagree in ${where}` : `the two touches in ${where} do not agree`;
  }
}

/** Text as comment lines of at most this many characters between the brackets. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.replace(/[()]/g, ' ').split(/\s+/).filter(Boolean)) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}
