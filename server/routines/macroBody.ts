import { type Along, latchedOn, type Target, targetsOn } from './along.ts';
import { absolute, type Expression, length, minus, plus, shifted, variable } from './expression.ts';
import { comment, pointed, remarked } from './macroNotation.ts';
import type { DatumWrite, Measure, Retreat, Search, Step } from './motion.ts';
import { type Notation, printOpen, printValue } from './printExpression.ts';
import { inUnits, inUnitsFeed } from './units.ts';
import { argumentsOf, argumentValue, calledConditions, failureText, type Writing } from './writing.ts';

/** Modes that a routine changes and puts back: motion, plane, distance, feed mode, units. */
const keptModes = { motion: 4001, plane: 4002, distance: 4003, feedMode: 4005, units: 4006 } as const;
const firstOffset = 54;
/** Alarm numbers of #3000 end at 200 on many controls; builders use the low ones. */
const firstAlarm = 100;

/** N numbers: a failure goes back `aside` and then `up`, or up alone where the tip moved along Z; success goes to `done`. */
export interface MacroLabels {
  readonly aside: number;
  readonly up: number;
  readonly done: number;
}

/** A step that may fail. */
type Failing = Step & { kind: 'guard' | 'search' | 'measure' };

/** The blocks of a routine in the macro dialect. */
export class MacroBody {
  private readonly notation: Notation;
  /** Alarm numbers of failures that go through the common exit. */
  private readonly failures = new Map<string, number>();
  private lastAlarm = firstAlarm;
  private column: Retreat['column'] | null = null;

  constructor(
    private readonly writing: Writing,
    private readonly name: (variable: string) => string,
    private readonly labels: MacroLabels,
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
    const offset = plan.workOffset;
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
      `GOTO ${this.labels.done}`,
      ...comment('Something went wrong: back the way it came, up, modes, alarm.'),
      ...this.exitMoves(),
      ...this.restoring(),
      ...[...this.failures].map(
        ([text, code]) =>
          `IF [${this.name('going on')} EQ ${code}] THEN #3000=${code} (${text.toUpperCase()})`,
      ),
      `#3000=${firstAlarm} (PROBING FAILED)`,
      `N${this.labels.done} (THE MODES AS THEY WERE)`,
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
          this.skip(step.along, end.value, this.pace.guarded),
          this.failIf(step, `${this.awayFrom(step.along, end.value)} GT ${this.length(this.pace.samePlace)}`),
        ];
      }
      case 'search': {
        const { along, from, end } = step;
        return [
          ...this.wayOut(step),
          this.skip(along, end, this.pace.search),
          this.failIf(step, `${this.awayFrom(along, end)} LT ${this.length(this.pace.samePlace)}`),
          this.failIf(step, `${this.awayFrom(along, from)} LT ${this.length(this.pace.atOnce)}`),
          this.keep(step),
        ];
      }
      case 'measure': {
        const { along, sign, found } = step;
        const end = this.named('target', shifted(found, sign, length(this.pace.past)));
        return [
          ...this.wayOut(step),
          ...end.setting,
          this.skip(along, end.value, this.pace.measuring),
          this.failIf(step, `${this.awayFrom(along, end.value)} LT ${this.length(this.pace.samePlace)}`),
          this.failIf(step, `${this.awayFrom(along, found)} GT ${this.length(this.pace.agreement)}`),
          this.keep(step),
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
    const offset = this.writing.plan.workOffset;
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
    const isActive = this.writing.plan.workOffset === 'active';
    const words = Object.keys(keptModes).map((mode) => `G${this.name(`kept ${mode}`)}`);
    return [
      ...(isActive ? [] : [`G${this.name('kept offset')}`]),
      words.join(' '),
      `F${this.name('kept feed')}`,
    ];
  }

  private exitMoves(): string[] {
    const { aside, up } = this.labels;
    const feed = this.feed(this.pace.guarded);
    const back = `N${aside} G1 X${this.name('column x')} Y${this.name('column y')} ${feed}`;
    return [...(this.movesSideways() ? [back] : []), `N${up} G1 Z${this.name('startZ')} ${feed}`];
  }

  private movesSideways(): boolean {
    return this.writing.steps.some(
      (step) => 'retreat' in step && step.retreat.moves.flat().some(({ axis }) => axis !== 'z'),
    );
  }

  /** Says which step is going on and where its way out leads, for the one exit that all failures share. */
  private wayOut(step: Failing): string[] {
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

  private failIf({ along }: Failing, condition: string): string {
    return `IF [${condition}] GOTO ${along === 'z' ? this.labels.up : this.labels.aside}`;
  }

  /** A target that is one variable is used as it is; anything longer gets a variable, to be compared with afterwards. */
  private named(name: string, expression: Expression): { setting: string[]; value: Expression } {
    if (expression.kind === 'variable') return { setting: [], value: expression };
    return { setting: [`${this.name(name)}=${this.open(expression)}`], value: variable(name) };
  }

  private skip(along: Along, to: Expression, feed: number): string {
    return `G31 ${this.words(targetsOn(along, to))} ${this.feed(feed)}`;
  }

  /** From where the last touch was latched to a place on its line. */
  private awayFrom(along: Along, place: Expression): string {
    return this.open(absolute(minus(latchedOn(along), place)));
  }

  private keep({ along, into }: Search | Measure): string {
    return `${this.name(into)}=${this.open(latchedOn(along))}`;
  }

  private plain(targets: readonly Target[]): string {
    return `G1 ${this.words(targets)} ${this.feed(this.pace.guarded)}`;
  }

  private words(targets: readonly Target[]): string {
    return targets.map(({ axis, to }) => `${axis.toUpperCase()}${this.value(to)}`).join(' ');
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
