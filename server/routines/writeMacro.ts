import { type Expression, minus, plus } from './expression.ts';
import type { Axis, DatumWrite, Retreat, Step, Target } from './motion.ts';
import { commonVariables, labelNumbers, numberedParameters } from './names.ts';
import { type Notation, printOpen, printValue } from './printExpression.ts';
import { inUnits, inUnitsFeed } from './units.ts';
import {
  argumentsOf,
  argumentValue,
  calledConditions,
  failureText,
  headerOf,
  type Writing,
  wrapped,
} from './writing.ts';

const latched: Readonly<Record<Axis, string>> = { x: '#5061', y: '#5062', z: '#5063' };
const argumentLetters = ['A', 'B', 'C', 'I', 'J', 'K'];
/** Modes that a routine changes and puts back: motion, plane, distance, feed mode, units. */
const keptModes = { motion: 4001, plane: 4002, distance: 4003, feedMode: 4005, units: 4006 } as const;
const firstOffset = 54;
/** Alarm numbers of #3000 end at 200 on many controls; builders use the low ones. */
const firstAlarm = 100;

/**
 * The routine in the macro dialect: common variables, skip moves tested by where they ended, one way out for all
 * failures. null where the program leaves too few of the common variables.
 */
export function writeMacro(writing: Writing): string[] | null {
  const free = numberedParameters({
    used: writing.usedParameters,
    arguments: writing.form === 'inline' ? null : argumentsOf(writing).map((input) => input.name),
    results: new Set(writing.routine.results.map((result) => result.name)),
  });
  let exhausted = false;
  const name = (variable: string) => {
    const parameter = free(variable);
    if (parameter === null) exhausted = true;
    return parameter ?? '#0';
  };
  const label = labelNumbers(writing.usedLabels, 901);
  const number = labelNumbers(writing.usedLabels, writing.routine.subroutine.number)();
  const lines = program(new Body(writing, name, label(), label()), writing, number);
  return exhausted ? null : lines;
}

export const noVariablesLeft = `The program uses so many of #${commonVariables.first} to #${commonVariables.last} that too few are left for the routine.`;

function program(body: Body, writing: Writing, number: number): string[] {
  const { routine, form, standAlone } = writing;
  const header = headerOf(writing, 'macro').flatMap(comment);
  const inputs = form === 'inline' ? body.inputSettings() : body.argumentSettings();
  const preparation = body.preparation();
  const steps = writing.steps.flatMap((step) => body.step(step));
  const inner = [...inputs, ...preparation, ...steps, ...body.ending()];
  if (form === 'inline') {
    const lines = [...header, ...inner];
    return standAlone ? ['%', ...lines, 'M30', '%'] : lines;
  }
  const subroutine = [
    `O${number} (${routine.title.toUpperCase()})`,
    ...header,
    ...comment(callText(writing, number)),
    ...inner,
    'M99',
  ];
  if (!standAlone) return subroutine;
  const units = writing.plan.units === 'inch' ? 'G20' : 'G21';
  const main = ['O0001', `${units} G90`, `G65 P${number}${callArguments(writing)}`, 'M30'];
  return ['%', ...main, ...subroutine, '%'];
}

class Body {
  private readonly notation: Notation;
  /** Alarm numbers of failures that go through the common exit. */
  private readonly failures = new Map<string, number>();
  private lastAlarm = firstAlarm;
  private column: Retreat['column'] | null = null;

  constructor(
    private readonly writing: Writing,
    private readonly name: (variable: string) => string,
    private readonly failed: number,
    private readonly done: number,
  ) {
    const { plan, tip } = writing;
    this.notation = {
      blank: '',
      length: (mm) => pointed(inUnits(mm, plan.units)),
      number: pointed,
      variable: name,
      tipDiameter: tip.parameter ?? pointed(inUnits(tip.mm ?? 0, plan.units)),
    };
  }

  inputSettings(): string[] {
    return argumentsOf(this.writing).map((input) =>
      remarked(`${this.name(input.name)}=${pointed(argumentValue(this.writing, input))}`, input.title),
    );
  }

  argumentSettings(): string[] {
    const taken = argumentsOf(this.writing).map((input) => `${this.name(input.name)} ${input.title}`);
    const looks = calledConditions(this.writing).map(({ left, right, short }) =>
      this.alarmIf(`${this.open(left)} LT ${this.open(right)}`, short),
    );
    return [...comment(`Arguments: ${taken.join(', ')}.`), ...looks];
  }

  preparation(): string[] {
    const { plan } = this.writing;
    const offset = plan.choice('workOffset');
    return [
      remarked('M5', 'spindle off'),
      remarked('M9', 'coolant off'),
      ...comment('Keep the modes and the feed.'),
      ...Object.entries(keptModes).map(([mode, number]) => `${this.name(`kept ${mode}`)}=#${number}`),
      `${this.name('kept feed')}=#4109`,
      ...this.keepOffset(offset),
      `G17 ${plan.units === 'inch' ? 'G20' : 'G21'} G40 G80 G90 G94`,
      ...(offset === 'active' ? [] : [offset]),
      ...comment('Where the tip stands.'),
      ...(['x', 'y', 'z'] as const).map(
        (axis, index) => `${this.name(`start${axis.toUpperCase()}`)}=#${5041 + index}`,
      ),
    ];
  }

  ending(): string[] {
    return [
      `GOTO ${this.done}`,
      ...comment('Something went wrong: back the way it came, up, modes, alarm.'),
      ...this.exitMoves(),
      ...this.restoring(),
      ...[...this.failures].map(
        ([text, code]) =>
          `IF [${this.name('going on')} EQ ${code}] THEN #3000=${code} (${text.toUpperCase()})`,
      ),
      `#3000=${firstAlarm} (PROBING FAILED)`,
      `N${this.done} (THE MODES AS THEY WERE)`,
      ...this.restoring(),
      ...comment(`Results: ${this.results()}.`),
    ];
  }

  step(step: Step): string[] {
    switch (step.kind) {
      case 'note':
        return comment(step.text);
      case 'set':
        return [remarked(`${this.name(step.name)}=${this.open(step.value)}`, step.comment)];
      case 'guard': {
        const end = this.named('target', step.to);
        return [
          ...this.wayOut(step),
          ...end.setting,
          this.skip(step.axis, end.value, this.pace.guarded),
          this.failIf(`ABS[${latched[step.axis]}-${end.value}] GT ${this.length(this.pace.samePlace)}`),
        ];
      }
      case 'search': {
        const { axis, from, end, into } = step;
        return [
          ...this.wayOut(step),
          this.skip(axis, this.open(end), this.pace.search),
          this.failIf(`ABS[${latched[axis]}-${this.open(end)}] LT ${this.length(this.pace.samePlace)}`),
          this.failIf(`ABS[${latched[axis]}-${this.open(from)}] LT ${this.length(this.pace.atOnce)}`),
          `${this.name(into)}=${latched[axis]}`,
        ];
      }
      case 'measure': {
        const { axis, sign, found, into } = step;
        const past = { kind: 'length' as const, mm: this.pace.past };
        const end = this.named('target', sign > 0 ? plus(found, past) : minus(found, past));
        return [
          ...this.wayOut(step),
          ...end.setting,
          this.skip(axis, end.value, this.pace.measuring),
          this.failIf(`ABS[${latched[axis]}-${end.value}] LT ${this.length(this.pace.samePlace)}`),
          this.failIf(`ABS[${latched[axis]}-${this.open(found)}] GT ${this.length(this.pace.agreement)}`),
          `${this.name(into)}=${latched[axis]}`,
        ];
      }
      case 'back':
        return [this.plain(step.targets)];
      case 'write':
        return this.write(step.datums);
    }
  }

  /**
   * L2 sets the origin itself: the old one, moved by what was measured less what it is to be called. Where the tip stands
   * does not come into it.
   */
  private write(datums: readonly DatumWrite[]): string[] {
    const offset = this.writing.plan.choice('workOffset');
    const isActive = offset === 'active';
    const axisNumber = { x: 1, y: 2, z: 3 } as const;
    const origins = datums.map(({ axis }) => {
      const number = isActive
        ? `#[${5200 + axisNumber[axis]}+20*${this.name('offset number')}]`
        : `#${5200 + axisNumber[axis] + 20 * (Number(offset.slice(1)) - firstOffset + 1)}`;
      return remarked(`${this.name(`origin ${axis}`)}=${number}`, `old origin, ${axis}`);
    });
    const words = datums.map(({ axis, measured, becomes }) => {
      const origin = { kind: 'variable' as const, name: `origin ${axis}` };
      return `${axis.toUpperCase()}${this.value(plus(minus(origin, becomes), measured))}`;
    });
    const p = isActive ? this.name('offset number') : String(Number(offset.slice(1)) - firstOffset + 1);
    return [
      ...comment('Every touch succeeded: the origin moves by what was measured.'),
      ...origins,
      `G10 L2 P${p} ${words.join(' ')}`,
    ];
  }

  /** #4014 is 54 to 59, or 54.1 for the further ones, whose origins stand elsewhere. */
  private keepOffset(offset: string): string[] {
    const kept = this.name('kept offset');
    const whole = this.alarmIf(`${kept} NE FIX[${kept}]`, 'use G54 to G59');
    if (offset !== 'active') return [`${kept}=#4014`, whole];
    return [
      `${kept}=#4014`,
      whole,
      remarked(`${this.name('offset number')}=#4014-${firstOffset - 1}`, '1 is G54'),
    ];
  }

  private restoring(): string[] {
    const isActive = this.writing.plan.choice('workOffset') === 'active';
    const words = Object.keys(keptModes).map((mode) => `G${this.name(`kept ${mode}`)}`);
    return [
      ...(isActive ? [] : [`G${this.name('kept offset')}`]),
      words.join(' '),
      `F${this.name('kept feed')}`,
    ];
  }

  /** A routine that moves along Z alone has nothing to go back sideways, and the tip may stand on the surface. */
  private exitMoves(): string[] {
    const feed = this.feed(this.pace.guarded);
    const up = `G1 Z${this.name('startZ')} ${feed}`;
    if (!this.movesSideways()) return [`N${this.failed} ${up}`];
    return [`N${this.failed} G1 X${this.name('column x')} Y${this.name('column y')} ${feed}`, up];
  }

  private movesSideways(): boolean {
    return this.writing.steps.some(
      (step) => 'retreat' in step && step.retreat.moves.some(({ axis }) => axis !== 'z'),
    );
  }

  /** Says which step is going on and where its way out leads, for the one exit that all failures share. */
  private wayOut(step: Step & { kind: 'guard' | 'search' | 'measure' }): string[] {
    const { column } = step.retreat;
    const moved = (['x', 'y'] as const).filter(
      (axis) =>
        this.movesSideways() &&
        (this.column === null || this.open(this.column[axis]) !== this.open(column[axis])),
    );
    this.column = column;
    const code = this.alarmFor(failureText(step, 'short'));
    return [
      ...moved.map((axis) =>
        remarked(`${this.name(`column ${axis}`)}=${this.open(column[axis])}`, `way out, ${axis}`),
      ),
      `${this.name('going on')}=${code}`,
    ];
  }

  private alarmFor(text: string): number {
    const known = this.failures.get(text);
    if (known !== undefined) return known;
    this.lastAlarm++;
    this.failures.set(text, this.lastAlarm);
    return this.lastAlarm;
  }

  /** Before anything has moved. */
  private alarmIf(condition: string, text: string): string {
    this.lastAlarm++;
    return `IF [${condition}] THEN #3000=${this.lastAlarm} (${text.toUpperCase()})`;
  }

  private failIf(condition: string): string {
    return `IF [${condition}] GOTO ${this.failed}`;
  }

  /** A target that is one variable is used as it is; anything longer gets a variable, to be compared with afterwards. */
  private named(variable: string, expression: Expression): { setting: string[]; value: string } {
    if (expression.kind === 'variable') return { setting: [], value: this.open(expression) };
    const value = this.name(variable);
    return { setting: [`${value}=${this.open(expression)}`], value };
  }

  private skip(axis: Axis, to: string, feed: number): string {
    return `G31 ${axis.toUpperCase()}${to} ${this.feed(feed)}`;
  }

  private plain(targets: readonly Target[]): string {
    const words = targets.map(({ axis, to }) => `${axis.toUpperCase()}${this.value(to)}`);
    return `G1 ${words.join(' ')} ${this.feed(this.pace.guarded)}`;
  }

  private results(): string {
    const set = new Set(this.writing.steps.flatMap((step) => (step.kind === 'set' ? [step.name] : [])));
    return this.writing.routine.results
      .filter(({ name }) => set.has(name))
      .map(({ name, title }) => `${this.name(name)} ${title}`)
      .join(', ');
  }

  private get pace() {
    return this.writing.plan.pace;
  }

  private feed(feed: number): string {
    return `F${pointed(inUnitsFeed(feed, this.writing.plan.units))}`;
  }

  private length(mm: number): string {
    return this.notation.length(mm);
  }

  private value(expression: Expression): string {
    return printValue(expression, this.notation);
  }

  private open(expression: Expression): string {
    return printOpen(expression, this.notation);
  }
}

function callText(writing: Writing, number: number): string {
  const taken = argumentsOf(writing).map((input, index) => `${argumentLetters[index]} ${input.title}`);
  return `Call: G65 P${number}${callArguments(writing)} with ${taken.join(', ')}, in ${writing.plan.units}.`;
}

function callArguments(writing: Writing): string {
  return argumentsOf(writing)
    .map((input, index) => ` ${argumentLetters[index]}${pointed(argumentValue(writing, input))}`)
    .join('');
}

/** Without a decimal point many controls of this family read least increments. */
function pointed(value: number): string {
  const text = String(value);
  return text.includes('.') ? text : `${text}.`;
}

function remarked(block: string, remark: string): string {
  return remark === '' ? block : `${block} (${remark.toUpperCase()})`;
}

function comment(text: string): string[] {
  return wrapped(text, 70).map((line) => `(${line.toUpperCase()})`);
}
