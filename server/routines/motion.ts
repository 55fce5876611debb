import { type Along, type Axis, type Level, type Ray, type Target, targetsOn, wayInWords } from './along.ts';
import { type Expression, length, minus, same, shifted, tipDiameter, variable } from './expression.ts';
import type { Pace } from './pace.ts';

/** What is done where a step fails: back the way it came and up, then a message. */
export interface Retreat {
  /** Plain moves along travelled ground, in order. */
  readonly moves: readonly (readonly Target[])[];
  /** The place in X and Y that those moves lead to. */
  readonly column: { readonly x: Expression; readonly y: Expression };
  /** Where it happened, in a few words: "X+". */
  readonly where: string;
}

/** The motion of a routine in neither dialect: everything is in absolute work coordinates, in the units of the routine. */
export type Step =
  | { readonly kind: 'note'; readonly text: string }
  | { readonly kind: 'set'; readonly name: string; readonly value: Expression; readonly comment: string }
  /** Travel that is ready to meet something, and stops the program if it does. */
  | { readonly kind: 'guard'; readonly along: Along; readonly to: Expression; readonly retreat: Retreat }
  | Search
  | Measure
  /** A plain move over ground that was travelled or touched before. */
  | { readonly kind: 'back'; readonly targets: readonly Target[] }
  | { readonly kind: 'write'; readonly datums: readonly DatumWrite[] }
  | Judge
  | Orient
  | Index
  | LogTouch
  | ToolLength
  /** The work offset is turned about Z where the dialect keeps a rotation in it. */
  | { readonly kind: 'turn-offset'; readonly degrees: Expression };

/** The quick first touch: from `from` until contact, at most to `end`; its result goes to `into`. */
export interface Search {
  readonly kind: 'search';
  readonly along: Along;
  readonly sign: 1 | -1;
  readonly from: Expression;
  readonly end: Expression;
  /** Where contact is expected with the feature in its place. */
  readonly expected: Expression;
  readonly into: string;
  readonly retreat: Retreat;
}

/** The slow second touch, which counts: from backed off until contact, at most a little past the first. */
export interface Measure {
  readonly kind: 'measure';
  readonly along: Along;
  readonly sign: 1 | -1;
  readonly found: Expression;
  readonly expected: Expression;
  readonly into: string;
  readonly retreat: Retreat;
}

/** Stops the program with a message where `left` is greater than `right`; the tip stands at the level, free of all. */
export interface Judge {
  readonly kind: 'judge';
  readonly left: Expression;
  readonly right: Expression;
  /** What is wrong, in a clause. */
  readonly long: string;
  /** In a few words, for a small screen. */
  readonly short: string;
}

/** The spindle turns: degrees from where it hangs as it was calibrated, counter-clockwise seen from above. */
export interface Orient {
  readonly kind: 'orient';
  readonly degrees: number;
}

/** The rotary axis turns to this angle, work coordinates, degrees. */
export interface Index {
  readonly kind: 'index';
  readonly axis: 'a' | 'b' | 'c';
  readonly degrees: number;
}

/** Writes down touches for `calibrate`: the header, a row of what the variables hold, or nothing more. */
export interface LogTouch {
  readonly kind: 'log';
  readonly part: 'open' | 'row' | 'close';
}

/** The tool's length in the table becomes the one in force and `by` more. */
export interface ToolLength {
  readonly kind: 'tool-length';
  readonly tool: number;
  readonly by: Expression;
}

/** Columns of a row of touches and the variables that hold them. */
export const logColumns = {
  direction: 'logDirection',
  x: 'logX',
  y: 'logY',
  feed: 'logFeed',
  spindle: 'logSpindle',
} as const;

/** The axis stands at `at`; the feature was measured at `measured` and gets the coordinate `becomes`. */
export interface DatumWrite {
  readonly axis: 'x' | 'y' | 'z';
  readonly at: Expression;
  readonly measured: Expression;
  readonly becomes: Expression;
}

export interface TouchPlan {
  readonly along: Along;
  readonly sign: 1 | -1;
  /** Coordinate along the line of the ball's centre (Z: of its lowest point) at contact, if the feature is where it should be. */
  readonly expected: Expression;
  /** The search begins so far before the expected place and ends so far behind it, mm. */
  readonly margin: number;
  /** False where the search begins from where the tip stands, with no quick approach. */
  readonly approach: boolean;
  /** Variable that gets the latched coordinate. */
  readonly into: string;
}

export const start = { x: variable('startX'), y: variable('startY'), z: variable('startZ') } as const;

/**
 * Writes down a motion and keeps its books: where the tip stands, and the way back from there. The tip starts at
 * (startX, startY, startZ); startZ is the level at which it travels sideways outside a feature.
 */
export class Motion {
  readonly steps: Step[] = [];
  private readonly at: Record<Axis, Expression> = { ...start };
  /** Where the tip last went down from the level, or may rise to it. */
  private column = { x: start.x as Expression, y: start.y as Expression };
  private onRay: { readonly along: Ray; readonly to: Expression } | null = null;
  private touches = 0;

  constructor(private readonly pace: Pace) {}

  note(text: string): void {
    this.steps.push({ kind: 'note', text });
  }

  set(name: string, value: Expression, comment = ''): Expression {
    this.steps.push({ kind: 'set', name, value, comment });
    return variable(name);
  }

  /** The tip's effective diameter as a variable; called once, before it is used. */
  tip(): Expression {
    return this.set('tip', tipDiameter, 'effective tip diameter');
  }

  /** Guarded travel along a line; at the level it moves the column with it. */
  guard(along: Along, to: Expression): void {
    const targets = this.moving(targetsOn(along, to));
    if (targets.length === 0) return;
    const where = typeof along === 'string' ? along.toUpperCase() : wayInWords(along, 1);
    this.steps.push({ kind: 'guard', along, to, retreat: this.retreat(along, where) });
    this.arrive(along, to);
    if (along !== 'z' && this.isAtLevel()) this.standHere();
  }

  down(depth: Expression): void {
    this.guard('z', minus(start.z, depth));
  }

  /** Straight up to the level, the way it came. */
  rise(): void {
    this.back([{ axis: 'z', to: start.z }]);
  }

  /** A plain move between places that touches have shown to be free; the column moves with it. */
  across(along: Level, to: Expression): void {
    this.back(targetsOn(along, to));
    this.arrive(along, to);
    this.standHere();
  }

  /** The same to a place in X and Y. */
  goTo({ x, y }: { readonly x: Expression; readonly y: Expression }): void {
    this.back([
      { axis: 'x', to: x },
      { axis: 'y', to: y },
    ]);
    this.standHere();
  }

  back(targets: readonly Target[]): void {
    const moved = this.moving(targets);
    if (moved.length === 0) return;
    this.steps.push({ kind: 'back', targets: moved });
    for (const { axis, to } of moved) this.at[axis] = to;
  }

  /** A search and a measurement of one place; the tip ends where it stood. Gives the latched coordinate along the line. */
  touch({ along, sign, expected, margin, approach, into }: TouchPlan): Expression {
    this.touches++;
    const where = wayInWords(along, sign);
    const home = this.standsAt(along);
    this.note(`Touch ${this.touches}, ${where}: look for the surface, back off, measure.`);
    const from = this.set(
      'from',
      approach ? shifted(expected, sign, length(-margin)) : home,
      'start of search',
    );
    const retreat = this.retreat(along, where);
    if (approach) this.steps.push({ kind: 'guard', along, to: from, retreat });
    const end = this.set('end', shifted(expected, sign, length(margin)), 'end of search');
    this.steps.push({ kind: 'search', along, sign, from, end, expected, into: 'found', retreat });
    const found = variable('found');
    const offSurface = shifted(found, sign, length(-this.pace.backOff));
    this.steps.push({ kind: 'back', targets: targetsOn(along, offSurface) });
    this.steps.push({ kind: 'measure', along, sign, found, expected, into, retreat });
    this.steps.push({ kind: 'back', targets: targetsOn(along, home) });
    return variable(into);
  }

  write(datums: readonly { axis: Axis; measured: Expression; becomes: Expression }[]): void {
    this.steps.push({
      kind: 'write',
      datums: datums.map((datum) => ({ ...datum, at: this.at[datum.axis] })),
    });
  }

  judge(left: Expression, right: Expression, words: Pick<Judge, 'long' | 'short'>): void {
    this.steps.push({ kind: 'judge', left, right, ...words });
  }

  orient(degrees: number): void {
    this.steps.push({ kind: 'orient', degrees });
  }

  index(axis: Index['axis'], degrees: number): void {
    this.steps.push({ kind: 'index', axis, degrees });
  }

  toolLength(tool: number, by: Expression): void {
    this.steps.push({ kind: 'tool-length', tool, by });
  }

  log(rows: readonly Readonly<Record<keyof typeof logColumns, Expression>>[]): void {
    this.steps.push({ kind: 'log', part: 'open' });
    for (const row of rows) {
      for (const column of ['direction', 'x', 'y', 'feed', 'spindle'] as const)
        this.set(logColumns[column], row[column]);
      this.steps.push({ kind: 'log', part: 'row' });
    }
    this.steps.push({ kind: 'log', part: 'close' });
  }

  turnOffset(degrees: Expression): void {
    this.steps.push({ kind: 'turn-offset', degrees });
  }

  /** Coordinate along the line of the place where the tip stands. */
  private standsAt(along: Along): Expression {
    if (typeof along === 'string') return this.at[along];
    const { onRay, at } = this;
    if (onRay !== null && same(onRay.along, along) && targetsOn(along, onRay.to).every(this.isHere))
      return onRay.to;
    if (same(at.x, along.base.x) && same(at.y, along.base.y)) return length(0);
    throw new Error('The tip does not stand on this line.');
  }

  private arrive(along: Along, to: Expression): void {
    for (const target of targetsOn(along, to)) this.at[target.axis] = target.to;
    if (typeof along !== 'string') this.onRay = { along, to };
  }

  private readonly isHere = ({ axis, to }: Target) => same(this.at[axis], to);

  private moving(targets: readonly Target[]): readonly Target[] {
    return targets.filter((target) => !this.isHere(target));
  }

  private standHere(): void {
    this.column = { x: this.at.x, y: this.at.y };
  }

  private isAtLevel(): boolean {
    return same(this.at.z, start.z);
  }

  private retreat(along: Along, where: string): Retreat {
    const column = { ...this.column };
    const up: Target = { axis: 'z', to: start.z };
    if (along === 'z') return { moves: [[up]], column, where };
    const axes = typeof along === 'string' ? [along] : (['x', 'y'] as const);
    const aside = axes.map((axis): Target => ({ axis, to: column[axis] }));
    return { moves: this.isAtLevel() ? [aside] : [aside, [up]], column, where };
  }
}
