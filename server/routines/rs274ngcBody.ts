import type { Target } from './along.ts';
import { type Expression, length, minus, plus, same, shifted } from './expression.ts';
import type { DatumWrite, Step, ToolLength } from './motion.ts';
import type { Namer } from './names.ts';
import { comment, Rs274ngcText } from './rs274ngcText.ts';
import { logLines } from './touchLog.ts';
import { indexLines, orientLines } from './turning.ts';
import {
  argumentsOf,
  argumentValue,
  calledConditions,
  failureText,
  startsUsed,
  type Writing,
} from './writing.ts';

const offsets = ['G54', 'G55', 'G56', 'G57', 'G58', 'G59'];

/** The blocks of a routine in rs274ngc. */
export class Rs274ngcBody {
  private readonly text: Rs274ngcText;

  constructor(
    private readonly writing: Writing,
    private readonly name: Namer,
    private readonly label: () => number,
  ) {
    this.text = new Rs274ngcText(writing, name);
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
      this.stopIf(`${this.text.open(left)} LT ${this.text.open(right)}`, [], short, false),
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
      ...startsUsed(this.writing).map((axis) => `${this.name(`start${axis.toUpperCase()}`)} = #<_${axis}>`),
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
    const { text } = this;
    switch (step.kind) {
      case 'note':
        return comment(step.text);
      case 'set': {
        const setting = `${this.name(step.name)} = ${text.value(step.value)}`;
        return [step.comment === '' ? setting : `${setting} (${step.comment})`];
      }
      case 'guard':
        return [
          text.probe(step.along, step.to, pace.guarded),
          ...this.stopIf('#5070 NE 0', step.retreat.moves, failureText(step, 'long')),
        ];
      case 'search': {
        const atOnce = `${text.awayFrom(step.along, step.from)} LT ${text.length(pace.atOnce)}`;
        return [
          text.probe(step.along, step.end, pace.search),
          ...this.stopIf(`[#5070 EQ 0] OR [${atOnce}]`, step.retreat.moves, failureText(step, 'long')),
          `${this.name(step.into)} = ${text.latched(step.along)}`,
        ];
      }
      case 'measure': {
        const end = shifted(step.found, step.sign, length(pace.past));
        const apart = `${text.awayFrom(step.along, step.found)} GT ${text.length(pace.agreement)}`;
        return [
          text.probe(step.along, end, pace.measuring),
          ...this.stopIf(`[#5070 EQ 0] OR [${apart}]`, step.retreat.moves, failureText(step, 'long')),
          `${this.name(step.into)} = ${text.latched(step.along)}`,
        ];
      }
      case 'back':
        return [text.plain(step.targets, pace.guarded)];
      case 'write':
        return this.write(step.datums);
      case 'turn-offset':
        return this.turnOffset(step.degrees);
      case 'judge':
        return this.stopIf(`${text.open(step.left)} GT ${text.open(step.right)}`, [], step.long);
      case 'orient':
        return orientLines(step, this.writing.plan, 'rs274ngc', { comment, number: String });
      case 'index':
        return indexLines(step, { comment, number: String });
      case 'log':
        return logLines(step, 'rs274ngc', this.writing.plan.units, this.name);
      case 'tool-length':
        return this.toolLength(step);
    }
  }

  /** L20 says what the place where the tip stands is to be called: no old offset is read, whatever its units. */
  private write(datums: readonly DatumWrite[]): string[] {
    const p = offsets.indexOf(this.writing.plan.workOffset) + 1;
    const words = datums.map(
      ({ axis, at, measured, becomes }) =>
        `${axis.toUpperCase()}${this.text.value(same(at, measured) ? becomes : minus(plus(becomes, at), measured))}`,
    );
    return [
      ...comment('Every touch succeeded. The tip stands still; G10 L20 gives this place its coordinates.'),
      `G10 L20 P${p} ${words.join(' ')}`,
    ];
  }

  private turnOffset(degrees: Expression): string[] {
    const p = offsets.indexOf(this.writing.plan.workOffset) + 1;
    return [
      ...comment('Every touch succeeded: the work offset is turned about its origin.'),
      `G10 L2 P${p} R${this.text.value(degrees)}`,
    ];
  }

  private toolLength({ tool, by }: ToolLength): string[] {
    return [
      ...comment('The touch succeeded: the length in force and the correction go to the tool table.'),
      `G10 L1 P${tool} Z[#5403 + ${this.text.value(by)}]`,
      `G43 H${tool} (and in force)`,
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
    const { routine, plan } = this.writing;
    return [
      `${label} if [${condition}]`,
      ...moves.map((move) => `  ${this.text.plain(move, plan.pace.guarded)}`),
      ...(hasMoved ? ['  M72'] : []),
      `  (MSG, ${routine.title} stopped: ${text}. Nothing was written.)`,
      '  M2',
      `${label} endif`,
    ];
  }
}
