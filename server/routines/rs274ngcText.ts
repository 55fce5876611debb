import { type Along, latchedOn, type Target, targetsOn } from './along.ts';
import { absolute, type Expression, minus } from './expression.ts';
import { type Notation, printOpen, printValue } from './printExpression.ts';
import { inUnits, inUnitsFeed } from './units.ts';
import { type Writing, wrapped } from './writing.ts';

/** Values and words of rs274ngc, in the units and with the variables of one routine. */
export class Rs274ngcText {
  private readonly notation: Notation;
  private readonly units: Writing['plan']['units'];

  constructor(
    { plan, tip }: Writing,
    readonly name: (variable: string) => string,
  ) {
    this.units = plan.units;
    this.notation = {
      blank: ' ',
      length: (mm) => String(inUnits(mm, plan.units)),
      number: String,
      variable: name,
      tipDiameter: tip.parameter ?? String(inUnits(tip.mm ?? 0, plan.units)),
    };
  }

  /** Behind a letter or `=`. */
  value(expression: Expression): string {
    return printValue(expression, this.notation);
  }

  /** Inside brackets. */
  open(expression: Expression): string {
    return expression.kind === 'binary' ? this.value(expression) : printOpen(expression, this.notation);
  }

  length(mm: number): string {
    return this.notation.length(mm);
  }

  feed(feed: number): string {
    return `F${inUnitsFeed(feed, this.units)}`;
  }

  words(targets: readonly Target[]): string {
    return targets.map(({ axis, to }) => `${axis.toUpperCase()}${this.value(to)}`).join(' ');
  }

  plain(targets: readonly Target[], feed: number): string {
    return `G1 ${this.words(targets)} ${this.feed(feed)}`;
  }

  probe(along: Along, to: Expression, feed: number): string {
    return `G38.3 ${this.words(targetsOn(along, to))} ${this.feed(feed)}`;
  }

  latched(along: Along): string {
    return this.value(latchedOn(along));
  }

  /** From where the last touch was latched to a place on its line. */
  awayFrom(along: Along, place: Expression): string {
    return this.open(absolute(minus(latchedOn(along), place)));
  }
}

export function comment(text: string): string[] {
  return wrapped(text, 90).map((line) => `(${line})`);
}
