import { calledNames } from '../analysis/callSites.ts';
import { flowLines } from '../analysis/flowLines.ts';
import { labelLines } from '../analysis/lineLabels.ts';
import { macroFlowOf } from '../analysis/macroActions.ts';
import type { Procedure } from '../analysis/procedures.ts';
import type { Source } from '../syntax/source.ts';
import { lineName } from './blockFacts.ts';
import type { Report, Rule } from './rule.ts';

export const duplicateLabel: Rule = {
  id: 'duplicate-label',
  severity: 'warning',
  title: 'a label or subroutine twice, with a jump or call to it',
  what: 'An N number stands twice in one program and a GOTO jumps to it, or a subroutine of one name stands twice in the file and a call calls it.',
  why: 'Which of the two the control finds hangs on its kind and on where the jump stands: the program goes on somewhere that was not meant, or runs the other subroutine.',
  instead: 'Give each label that something jumps to, and each subroutine, a number or name of its own.',
  source: 'common practice, no source',
  fails: [
    { dialect: 'macro', program: 'G21 G90 G94\nIF[#101GT2]GOTO10\nN10 G0 X5.\nN10 G0 X6.\nM30\n' },
    {
      dialect: 'rs274ngc',
      program:
        'o<up> sub\n  G0 Z5\no<up> endsub\no<up> sub\n  G0 Z9\no<up> endsub\nG21 G90 G94\no<up> call\nM2\n',
    },
  ],
  passes: [
    { dialect: 'macro', program: 'G21 G90 G94\nIF[#101GT2]GOTO20\nN10 G0 X5.\nN10 G0 X6.\nN20 M30\n' },
    {
      dialect: 'rs274ngc',
      program:
        'o<up> sub\n  G0 Z5\no<up> endsub\nG21 G90 G94\no1 if [#1 GT 2]\n  o<up> call\no1 endif\no1 if [#1 LT 1]\n  o<up> call\no1 endif\nM2\n',
    },
  ],
  *check({ analysis: { source, procedures } }) {
    yield* subroutinesTwice(procedures.all, source);
    if (!source.dialect.oWords) for (const procedure of procedures.all) yield* labelsTwice(procedure, source);
  },
};

function* subroutinesTwice(all: readonly Procedure[], source: Source): Iterable<Report> {
  if (all.length < 2) return;
  const called = calledNames(source);
  const first = new Map<string, Procedure>();
  for (const procedure of all) {
    const { name, place } = procedure;
    if (name === null || place === null) continue;
    const before = first.get(name);
    if (!before) first.set(name, procedure);
    const call = called.get(name);
    if (!before?.place || !call) continue;
    yield {
      message: `The subroutine ${name} stands here and at ${lineName(before.place.line)}: which of the two a call runs hangs on the control.`,
      place,
      related: [
        { message: 'the first of this name', place: before.place },
        { message: 'called here', place: call.place },
      ],
    };
  }
}

function* labelsTwice(procedure: Procedure, source: Source): Iterable<Report> {
  const jumps = jumpsIn(procedure, source);
  if (jumps.size === 0) return;
  for (const [number, [first, ...others]] of labelLines(source, procedure.ranges, new Set(jumps.keys())))
    for (const line of others)
      yield {
        message: `N${number} stands here and at ${lineName(first ?? line)}, and a GOTO jumps to it: which of the two the control finds hangs on its search.`,
        place: labelPlace(source, line),
        related: [
          { message: 'the first of this number', place: labelPlace(source, first ?? line) },
          { message: 'the jump', place: jumps.get(number) ?? labelPlace(source, line) },
        ],
      };
}

/** The N numbers that GOTOs of the procedure name, each with its first jump. */
function jumpsIn({ ranges }: Procedure, source: Source) {
  const jumps = new Map<number, Report['place']>();
  for (const { line, block } of flowLines(source)) {
    const flow = macroFlowOf(block);
    if (flow?.form !== 'goto' || flow.target.kind !== 'number' || jumps.has(flow.target.value)) continue;
    if (ranges.some(([from, to]) => line >= from && line < to))
      jumps.set(flow.target.value, { line, start: flow.start, end: flow.end });
  }
  return jumps;
}

function labelPlace(source: Source, line: number): Report['place'] {
  const label = source.block(line).lineNumber;
  return { line, start: label?.start ?? 0, end: label?.end ?? source.text.line(line).length };
}
