import { remarked } from './macroNotation.ts';
import type { MacroText } from './macroText.ts';
import type { Retreat } from './motion.ts';
import { type Failing, failureText, type Writing } from './writing.ts';

/** Alarm numbers of #3000 end at 200 on many controls; builders use the low ones. */
const firstAlarm = 100;

/** N numbers: a failure goes back `aside` and then `up`, or up alone where the tip moved along Z; success goes to `done`. */
export interface MacroLabels {
  readonly aside: number;
  readonly up: number;
  readonly done: number;
}

/** The one way out that all failures of a routine share. */
export class MacroFailures {
  /** Alarm numbers of failures that go through the common exit. */
  private readonly failures = new Map<string, number>();
  private lastAlarm = firstAlarm;
  private column: Retreat['column'] | null = null;

  constructor(
    private readonly writing: Writing,
    private readonly text: MacroText,
    private readonly labels: MacroLabels,
  ) {}

  /** Before anything has moved. */
  alarmIf(condition: string, text: string): string {
    this.lastAlarm++;
    return `IF [${condition}] THEN #3000=${this.lastAlarm} (${text.toUpperCase()})`;
  }

  failIf({ along }: Pick<Failing, 'along'>, condition: string): string {
    return `IF [${condition}] GOTO ${along === 'z' ? this.labels.up : this.labels.aside}`;
  }

  /** Says which step is going on and where its way out leads. */
  wayOut(step: Failing): string[] {
    const { column } = step.retreat;
    const { text } = this;
    const moved = this.sideways().filter(
      (axis) => this.column === null || text.open(this.column[axis]) !== text.open(column[axis]),
    );
    this.column = column;
    return [
      ...moved.map((axis) =>
        remarked(`${text.name(`column ${axis}`)}=${text.open(column[axis])}`, `way out, ${axis}`),
      ),
      this.goingOn(failureText(step, 'short')),
    ];
  }

  goingOn(failure: string): string {
    return `${this.text.name('going on')}=${this.alarmFor(failure)}`;
  }

  /** The moves of the way out, from the lower label on. */
  moves(): string[] {
    const { aside, up } = this.labels;
    const { text } = this;
    const feed = text.feed(this.writing.plan.pace.guarded);
    const sideways = this.sideways();
    const words = sideways.map((axis) => `${axis.toUpperCase()}${text.name(`column ${axis}`)}`);
    const back = `N${aside} G1 ${words.join(' ')} ${feed}`;
    return [...(sideways.length > 0 ? [back] : []), `N${up} G1 Z${text.name('startZ')} ${feed}`];
  }

  alarms(): string[] {
    return [
      ...[...this.failures].map(
        ([text, code]) =>
          `IF [${this.text.name('going on')} EQ ${code}] THEN #3000=${code} (${text.toUpperCase()})`,
      ),
      `#3000=${firstAlarm} (PROBING FAILED)`,
    ];
  }

  /** The axes that some way out leads back along. */
  private sideways(): readonly ('x' | 'y')[] {
    const moves = this.writing.steps.flatMap((step) => ('retreat' in step ? step.retreat.moves.flat() : []));
    return (['x', 'y'] as const).filter((axis) => moves.some((move) => move.axis === axis));
  }

  private alarmFor(text: string): number {
    const known = this.failures.get(text);
    if (known !== undefined) return known;
    this.lastAlarm++;
    this.failures.set(text, this.lastAlarm);
    return this.lastAlarm;
  }
}
