import type { DialectName } from '../syntax/dialect.ts';
import { type Along, targetsOn } from './along.ts';
import { type Expression, variablesOf } from './expression.ts';
import type { Step } from './motion.ts';
import type { Values } from './readInputs.ts';
import type { Condition, Input, Plan, Routine } from './routine.ts';
import type { TipSource } from './tipDiameter.ts';
import { inUnits, sayFeed } from './units.ts';

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

/** The header's sentences, the same in both dialects. */
export function headerOf(writing: Writing, dialect: DialectName): readonly string[] {
  const { routine, plan, tip } = writing;
  const { pace, units } = plan;
  return [
    `${routine.title}, written by Probewright. ${routine.summary}`,
    'Caution: prove it above the part first, in single block, with reduced rapids and a hand on the stop.',
    'The manual of the machine builder, local rules and trained people have the last word.',
    `Before it starts: ${probeInSpindle(plan)} ${routine.start(plan).join(' ')} Rotation, mirror image and scaling are off.`,
    ...routine.cautions,
    `It makes no rapid move. Wherever the way is not known to be free it travels ready to stop at a touch${writes(writing, dialect) ? ', and it writes the work offset only after every touch succeeded' : '. It writes no work offset'}.`,
    `Feeds: travel ${sayFeed(pace.guarded, units)}, search ${sayFeed(pace.search, units)}, measuring ${sayFeed(pace.measuring, units)}.`,
    tip.says,
    needs[dialect],
    `Inputs: ${inputsInWords(writing)}, units ${units}, dialect ${dialect}, form ${writing.form}.`,
  ];
}

/** Only rs274ngc keeps a rotation in a work offset (common practice, no source). */
export function writes({ steps }: Pick<Writing, 'steps'>, dialect: DialectName): boolean {
  return steps.some(({ kind }) => kind === 'write' || (kind === 'turn-offset' && dialect === 'rs274ngc'));
}

/** Dialects differ from machine to machine: what to look up before the first run. */
const needs: Readonly<Record<DialectName, string>> = {
  rs274ngc:
    'It needs a control that knows M70 and M72 to keep modes, G38.3 with #5070, G10 L20 and #<_x>; the program must not use M70 and M72 around it.',
  macro:
    'It needs a control that stops G31 at a touch and keeps work coordinates in #5061 to #5063, and that knows #4001 to #4014, #5041 to #5043, #3000 and G10 L2.',
};

function probeInSpindle({ profile }: Plan): string {
  const tool = profile.probe.tool;
  return `the probe${tool === null ? '' : `, tool ${tool},`} hangs in the spindle as it was calibrated, with its tool length in force.`;
}

function inputsInWords({ routine, values, plan }: Writing): string {
  return routine.inputs
    .map((input) => {
      const value = values.get(input.name);
      const scaled = input.type === 'length' || input.type === 'feed';
      return `${input.name} ${typeof value === 'number' && scaled ? inUnits(value, plan.units) : value}`;
    })
    .join(', ');
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
