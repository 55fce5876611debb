import { type Expression, length, shifted, variable } from './expression.ts';
import { MacroFailures, type MacroLabels } from './macroFailures.ts';
import { comment, pointed, remarked } from './macroNotation.ts';
import { macroOffsetKept, macroOriginWrite } from './macroOrigin.ts';
import { MacroText } from './macroText.ts';
import type { Step, ToolLength } from './motion.ts';
import { logLines } from './touchLog.ts';
import { indexLines, orientLines } from './turning.ts';
import {
  argumentsOf,
  argumentValue,
  calledConditions,
  type Failing,
  startsUsed,
  type Writing,
  writes,
} from './writing.ts';

/** Modes that a routine changes and puts back: motion, plane, distance, feed mode, units. */
const keptModes = { motion: 4001, plane: 4002, distance: 4003, feedMode: 4005, units: 4006 } as const;

/** The blocks of a routine in the macro dialect. */
export class MacroBody {
  private readonly text: MacroText;
  private readonly failures: MacroFailures;

  constructor(
    private readonly writing: Writing,
    private readonly name: (variable: string) => string,
    private readonly labels: MacroLabels,
  ) {
    this.text = new MacroText(writing, name);
    this.failures = new MacroFailures(writing, this.text, labels);
  }

  inputSettings(): string[] {
    return argumentsOf(this.writing).map((input) =>
      remarked(`${this.name(input.name)}=${pointed(argumentValue(this.writing, input))}`, input.title),
    );
  }

  argumentSettings(): string[] {
    const { text } = this;
    const taken = argumentsOf(this.writing).map((input) => `${this.name(input.name)} ${input.title}`);
    const looks = calledConditions(this.writing).map(({ left, right, short }) =>
      this.failures.alarmIf(`${text.open(left)} LT ${text.open(right)}`, short),
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
      // The way out always ends with Z.
      ...[...new Set([...startsUsed(this.writing), 'z'])].map(
        (axis) => `${this.name(`start${axis.toUpperCase()}`)}=#${5041 + 'xyz'.indexOf(axis)}`,
      ),
    ];
  }

  /** Where it neither chooses an offset nor writes one, it need not know which is in force. */
  private keepOffset(offset: string): string[] {
    if (offset === 'active' && !writes(this.writing, 'macro')) return [];
    return macroOffsetKept(offset, this.text, (condition, text) => this.failures.alarmIf(condition, text));
  }

  ending(): string[] {
    return [
      `GOTO ${this.labels.done}`,
      ...comment('Something went wrong: back the way it came, up, modes, alarm.'),
      ...this.failures.moves(),
      ...this.restoring(),
      ...this.failures.alarms(),
      `N${this.labels.done} (THE MODES AS THEY WERE)`,
      ...this.restoring(),
      ...comment(`Results: ${this.results()}.`),
    ];
  }

  step(step: Step): string[] {
    const { text } = this;
    switch (step.kind) {
      case 'note':
        return comment(step.text);
      case 'set':
        return [remarked(`${this.name(step.name)}=${text.open(step.value)}`, step.comment)];
      case 'guard':
      case 'search':
      case 'measure':
        return [...this.failures.wayOut(step), ...this.probe(step)];
      case 'back':
        return [text.plain(step.targets, this.pace.guarded)];
      case 'write':
        return macroOriginWrite(step.datums, this.writing.plan.workOffset, text);
      case 'judge':
        return [
          this.failures.goingOn(step.short),
          this.failures.failIf({ along: 'z' }, `${text.open(step.left)} GT ${text.open(step.right)}`),
        ];
      case 'orient':
        return orientLines(step, this.writing.plan, 'macro', { comment, number: pointed });
      case 'index':
        return indexLines(step, { comment, number: pointed });
      case 'log':
        return logLines(step, 'macro', this.writing.plan.units, this.name);
      case 'tool-length':
        return this.toolLength(step);
      case 'turn-offset':
        return comment(
          `This dialect keeps no rotation in a work offset. To turn a program by it: G68 X0. Y0. R${text.value(step.degrees)}, and G69 when it is done.`,
        );
    }
  }

  private probe(step: Failing): string[] {
    const { pace, text } = this;
    const { along } = step;
    const fail = (condition: string) => this.failures.failIf(step, condition);
    const samePlace = text.length(pace.samePlace);
    switch (step.kind) {
      case 'guard': {
        const end = this.named('target', step.to);
        return [
          ...end.setting,
          text.skip(along, end.value, pace.guarded),
          fail(`${text.awayFrom(along, end.value)} GT ${samePlace}`),
        ];
      }
      case 'search':
        return [
          text.skip(along, step.end, pace.search),
          fail(`${text.awayFrom(along, step.end)} LT ${samePlace}`),
          fail(`${text.awayFrom(along, step.from)} LT ${text.length(pace.atOnce)}`),
          `${this.name(step.into)}=${text.latched(along)}`,
        ];
      case 'measure': {
        const end = this.named('target', shifted(step.found, step.sign, length(pace.past)));
        return [
          ...end.setting,
          text.skip(along, end.value, pace.measuring),
          fail(`${text.awayFrom(along, end.value)} LT ${samePlace}`),
          fail(`${text.awayFrom(along, step.found)} GT ${text.length(pace.agreement)}`),
          `${this.name(step.into)}=${text.latched(along)}`,
        ];
      }
    }
  }

  private toolLength({ tool, by }: ToolLength): string[] {
    return [
      ...comment('The touch succeeded: the length in force and the correction go to the offset table.'),
      `G10 L10 P${tool} R[#5083+${this.text.value(by)}]`,
      remarked(`G43 H${tool}`, 'and in force'),
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

  /** A target that is one variable is used as it is; anything longer gets a variable, to be compared with afterwards. */
  private named(name: string, expression: Expression): { setting: string[]; value: Expression } {
    if (expression.kind === 'variable') return { setting: [], value: expression };
    return { setting: [`${this.name(name)}=${this.text.open(expression)}`], value: variable(name) };
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
}
