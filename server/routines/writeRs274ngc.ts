import { type Along, latchedOn, type Target, targetsOn } from './along.ts';
import { absolute, type Expression, length, minus, plus, same, shifted } from './expression.ts';
import type { DatumWrite, Measure, Search, Step } from './motion.ts';
import { freeLabel, labelNumbers, type Namer, namedParameters, snakeCase } from './names.ts';
import { type Notation, printOpen, printValue } from './printExpression.ts';
import { sealed } from './seal.ts';
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

const offsets = ['G54', 'G55', 'G56', 'G57', 'G58', 'G59'];

/** The routine in rs274ngc: named locals, O-word branches, G38.3 tested by #5070, modes kept by M70 and M72. */
export function writeRs274ngc(writing: Writing): string[] {
  const { routine, plan, form, standAlone } = writing;
  const isSubroutine = form === 'subroutine';
  const results = new Set(routine.results.map((result) => result.name));
  const name = namedParameters(
    writing.usedParameters,
    isSubroutine ? snakeCase(routine.name) : null,
    results,
  );
  const label = labelNumbers(writing.usedLabels, 101);
  const subroutine = freeLabel(routine.subroutine.name, writing.usedLabels);
  const body = new Body(writing, name, label);
  const inputs = isSubroutine ? body.argumentSettings() : body.inputSettings();
  const own = [
    ...headerOf(writing, 'rs274ngc').flatMap(comment),
    ...(isSubroutine ? [...comment(callText(writing, subroutine)), `o<${subroutine}> sub`] : []),
    ...inputs,
    ...body.preparation(),
    ...writing.steps.flatMap((step) => body.step(step)),
    ...body.ending(),
    ...(isSubroutine ? [`o<${subroutine}> endsub`] : []),
  ];
  const lines = sealed(routine.title, own, comment);
  if (!standAlone) return lines;
  const units = plan.units === 'inch' ? 'G20' : 'G21';
  const call = isSubroutine ? [`${units} G90`, `o<${subroutine}> call${callArguments(writing)}`] : [];
  return [...lines, ...call, 'M2'];
}

class Body {
  private readonly notation: Notation;

  constructor(
    private readonly writing: Writing,
    private readonly name: Namer,
    private readonly label: () => number,
  ) {
    const { plan, tip } = writing;
    this.notation = {
      blank: ' ',
      length: (mm) => String(inUnits(mm, plan.units)),
      number: String,
      variable: name,
      tipDiameter: tip.parameter ?? String(inUnits(tip.mm ?? 0, plan.units)),
    };
  }

  inputSettings(): string[] {
    return argumentsOf(this.writing).map(
      (input) => `${this.name(input.name)} = ${argumentValue(this.writing, input)} (${input.title})`,
    );
  }

  argumentSettings(): string[] {
    const settings = argumentsOf(this.writing).map(
      (input, index) => `${this.name(input.name)} = #${index + 1} (${input.title})`,
    );
    const looks = calledConditions(this.writing).flatMap(({ left, right, short }) =>
      this.stopIf(`${this.open(left)} LT ${this.open(right)}`, [], short, false),
    );
    return [...settings, ...looks];
  }

  /** Spindle and coolant stop before M70, so that M72 can't start them again. */
  preparation(): string[] {
    const { plan } = this.writing;
    const offset = plan.workOffset;
    return [
      'M5 M9 (spindle and coolant off)',
      'M70 (keep the modes)',
      `G17 ${plan.units === 'inch' ? 'G20' : 'G21'} G40 G61 G80 G90 G94`,
      ...(offset === 'active' ? [] : [offset]),
      ...(['x', 'y', 'z'] as const).map((axis) => `${this.name(`start${axis.toUpperCase()}`)} = #<_${axis}>`),
    ];
  }

  ending(): string[] {
    const said = this.writing.routine.results.filter(({ name }) =>
      this.writing.steps.some((step) => step.kind === 'set' && step.name === name),
    );
    const results = said.map(({ name, title }) => `${this.name(name)} ${title}`).join(', ');
    return ['M72 (the modes as they were)', ...comment(`Results: ${results}.`)];
  }

  step(step: Step): string[] {
    const { pace } = this.writing.plan;
    switch (step.kind) {
      case 'note':
        return comment(step.text);
      case 'set': {
        const setting = `${this.name(step.name)} = ${this.value(step.value)}`;
        return [step.comment === '' ? setting : `${setting} (${step.comment})`];
      }
      case 'guard':
        return [
          this.probe(step.along, step.to, pace.guarded),
          ...this.stopIf('#5070 NE 0', step.retreat.moves, failureText(step, 'long')),
        ];
      case 'search': {
        const atOnce = `${this.awayFrom(step.along, step.from)} LT ${this.length(pace.atOnce)}`;
        return [
          this.probe(step.along, step.end, pace.search),
          ...this.stopIf(`[#5070 EQ 0] OR [${atOnce}]`, step.retreat.moves, failureText(step, 'long')),
          this.keep(step),
        ];
      }
      case 'measure': {
        const end = shifted(step.found, step.sign, length(pace.past));
        const apart = `${this.awayFrom(step.along, step.found)} GT ${this.length(pace.agreement)}`;
        return [
          this.probe(step.along, end, pace.measuring),
          ...this.stopIf(`[#5070 EQ 0] OR [${apart}]`, step.retreat.moves, failureText(step, 'long')),
          this.keep(step),
        ];
      }
      case 'back':
        return [this.plain(step.targets)];
      case 'write':
        return this.write(step.datums);
    }
  }

  /** L20 says what the place where the tip stands is to be called: no old offset is read, whatever its units. */
  private write(datums: readonly DatumWrite[]): string[] {
    const p = offsets.indexOf(this.writing.plan.workOffset) + 1;
    const words = datums.map(
      ({ axis, at, measured, becomes }) =>
        `${axis.toUpperCase()}${this.value(same(at, measured) ? becomes : minus(plus(becomes, at), measured))}`,
    );
    return [
      ...comment('Every touch succeeded. The tip stands still; G10 L20 gives this place its coordinates.'),
      `G10 L20 P${p} ${words.join(' ')}`,
    ];
  }

  /** A failed step ends here: back the way it came, modes, message, end of program. */
  private stopIf(
    condition: string,
    moves: readonly (readonly Target[])[],
    text: string,
    hasMoved = true,
  ): string[] {
    const label = `o${this.label()}`;
    const { routine } = this.writing;
    return [
      `${label} if [${condition}]`,
      ...moves.map((move) => `  ${this.plain(move)}`),
      ...(hasMoved ? ['  M72'] : []),
      `  (MSG, ${routine.title} stopped: ${text}. Nothing was written.)`,
      '  M2',
      `${label} endif`,
    ];
  }

  private probe(along: Along, to: Expression, feed: number): string {
    return `G38.3 ${this.words(targetsOn(along, to))} ${this.feed(feed)}`;
  }

  /** From where the last touch was latched to a place on its line. */
  private awayFrom(along: Along, place: Expression): string {
    return this.open(absolute(minus(latchedOn(along), place)));
  }

  private keep({ along, into }: Search | Measure): string {
    return `${this.name(into)} = ${this.value(latchedOn(along))}`;
  }

  private plain(targets: readonly Target[]): string {
    return `G1 ${this.words(targets)} ${this.feed(this.writing.plan.pace.guarded)}`;
  }

  private words(targets: readonly Target[]): string {
    return targets.map(({ axis, to }) => `${axis.toUpperCase()}${this.value(to)}`).join(' ');
  }

  private feed(feed: number): string {
    return `F${inUnitsFeed(feed, this.writing.plan.units)}`;
  }

  private length(mm: number): string {
    return this.notation.length(mm);
  }

  private value(expression: Expression): string {
    return printValue(expression, this.notation);
  }

  private open(expression: Expression): string {
    return expression.kind === 'binary' ? this.value(expression) : printOpen(expression, this.notation);
  }
}

function callText(writing: Writing, subroutine: string): string {
  const taken = argumentsOf(writing).map((input) => input.title.toLowerCase());
  return `Call: o<${subroutine}> call${callArguments(writing)}, that is ${taken.join(', ')}, in ${writing.plan.units}.`;
}

function callArguments(writing: Writing): string {
  return argumentsOf(writing)
    .map((input) => ` [${argumentValue(writing, input)}]`)
    .join('');
}

function comment(text: string): string[] {
  return wrapped(text, 90).map((line) => `(${line})`);
}
