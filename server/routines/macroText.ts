import { type Along, latchedOn, type Target, targetsOn } from './along.ts';
import { absolute, type Expression, minus } from './expression.ts';
import { pointed } from './macroNotation.ts';
import { type Notation, printOpen, printValue } from './printExpression.ts';
import { inUnits, inUnitsFeed } from './units.ts';
import type { Writing } from './writing.ts';

/** Values and words of the macro dialect, in the units and with the variables of one routine. */
export class MacroText {
  private readonly notation: Notation;

  constructor(
    { plan, tip }: Writing,
    readonly name: (variable: string) => string,
  ) {
    this.units = plan.units;
    this.notation = {
      blank: '',
      length: (mm) => pointed(inUnits(mm, plan.units)),
      number: pointed,
      variable: name,
      tipDiameter: tip.parameter ?? pointed(inUnits(tip.mm ?? 0, plan.units)),
    };
  }

  private readonly units: Writing['plan']['units'];

  /** Behind a letter. */
  value(expression: Expression): string {
    return printValue(expression, this.notation);
  }

  /** Inside brackets or behind `=`. */
  open(expression: Expression): string {
    return printOpen(expression, this.notation);
  }

  length(mm: number): string {
    return this.notation.length(mm);
  }

  feed(feed: number): string {
    return `F${pointed(inUnitsFeed(feed, this.units))}`;
  }

  words(targets: readonly Target[]): string {
    return targets.map(({ axis, to }) => `${axis.toUpperCase()}${this.value(to)}`).join(' ');
  }

  plain(targets: readonly Target[], feed: number): string {
    return `G1 ${this.words(targets)} ${this.feed(feed)}`;
  }

  skip(along: Along, to: Expression, feed: number): string {
    return `G31 ${this.words(targetsOn(along, to))} ${this.feed(feed)}`;
  }

  latched(along: Along): string {
    return this.open(latchedOn(along));
  }

  /** From where the last touch was latched to a place on its line. */
  awayFrom(along: Along, place: Expression): string {
    return this.open(absolute(minus(latchedOn(along), place)));
  }
}
