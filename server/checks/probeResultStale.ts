import type { StaleRead, Touch } from '../analysis/model.ts';
import { type ParameterUses, parameterUses } from '../analysis/parameterUses.ts';
import { offsetNumber } from '../program/parameters.ts';
import { literal } from '../syntax/literal.ts';
import type { Place } from '../syntax/place.ts';
import { hasCode, lineName, wholeLine, wordsOf } from './blockFacts.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { CheckContext, Finding, Report, Rule } from './rule.ts';

export const probeResultStale: Rule = {
  id: 'probe-result-stale',
  severity: 'warning',
  title: 'the result of a touch is read after something changed its meaning',
  what: `#5061 … #5066 are numbers of the last touch, in the coordinates that held when it was made. The rule reports a reading of them after

- another work offset was selected, or the origin of the one in force was written, along the axis that is read;
- G92 or G52 shifted the axis, or another tool length was put in force;
- the unit was changed (rs274ngc: a parameter is a number that G20 and G21 do not convert);
- another touch along another axis wrote over it: the earlier touch along the axis that is read met its surface, and nothing had taken its coordinate yet.

Quiet where the value is only tested or printed, where the block that reads it also reads the origin or the length that held then, where the program comes back to the coordinates of the touch before it reads, and where the program reads coordinates of axes along which it never touches: it collects points then.`,
  why: 'The number is right, but it counts from another origin, in another unit, or it is the place where a later touch was made: the datum, or the next move, is off by the difference.',
  instead:
    'Copy the result into a parameter right after its touch, compute what is needed in the coordinates of the touch, and change them after that.',
  source:
    'parameters are numbers: NISTIR 6556, 3.2.1; the result of a touch: 3.5.9.1; the rest: common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94 G54
G0 X-5 Y5 Z-3
G38.2 X10 F40
G0 X-5
G0 Y-5
G38.2 Y10
G0 Y-5
(#5061 is where X stood at the touch in Y)
G10 L2 P2 X[#5221 + #5061 + 1.993] Y[#5222 + #5062 + 1.993]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94 G54
G0 X0. Y0. Z5.
G31 Z-10. F40.
IF[ABS[#5063+10.]LT0.05]GOTO90
#5223=#5223+#5063
G0 Z[#5063+5.]
M30
N90 #3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94 G54
G0 X-5 Y5 Z-3
G38.2 X10 F40
#<x> = [#5061 + 1.993]
G0 X-5
G0 Y-5
G38.2 Y10
#<y> = [#5062 + 1.993]
G0 Y-5
G10 L2 P2 X[#5221 + #<x>] Y[#5222 + #<y>]
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94 G54
G0 X0. Y0. Z5.
G31 Z-10. F40.
IF[ABS[#5063+10.]LT0.05]GOTO90
G0 Z[#5063+5.]
#5223=#5223+#5063
M30
N90 #3000=1(NO CONTACT)
`,
    },
  ],
  *check(context) {
    const { analysis } = context;
    if (analysis.staleReads.length === 0) return;
    const uses = parameterUses(analysis.source);
    const isPoints = collectsPoints(uses, analysis.touches);
    for (const read of analysis.staleReads) {
      const own = uses.find(({ line }) => line === read.place.line);
      if (!own || !isValue(own, read.place) || knowsTheOld(own, read, context)) continue;
      if (read.since.kind !== 'another-touch' || !isPoints) yield report(read, context);
    }
  },
};

function isValue({ reads }: ParameterUses, { start }: Place): boolean {
  return reads.some(({ place, how }) => place.start === start && how === 'value');
}

/** Reads coordinates of axes along which it never touches. */
function collectsPoints(uses: readonly ParameterUses[], touches: readonly Touch[]): boolean {
  const touched = new Set<string | null>(touches.map(({ axis }) => axis));
  if (touched.has(null)) return true;
  return uses.some(({ reads }) =>
    reads.some(({ name, how }) => {
      const axis = /^506([123])$/.exec(name ?? '')?.[1];
      return how === 'value' && axis !== undefined && !touched.has(axes[Number(axis) - 1] ?? null);
    }),
  );
}

const axes = ['x', 'y', 'z', 'a', 'b', 'c'] as const;

/** The same block reads what held at the touch, or writes what is counted in it: it brings both together. */
function knowsTheOld(
  { line, reads }: ParameterUses,
  { since, axis }: StaleRead,
  context: CheckContext,
): boolean {
  const index = axes.indexOf(axis);
  const readsAny = (numbers: readonly number[]) =>
    reads.some(({ name }) => name !== null && numbers.includes(Number(name)));
  switch (since.kind) {
    case 'selected':
      return readsAny([(offsetNumber(since.from) ?? Number.NaN) + index]);
    case 'shifted':
      return readsAny([5211 + index]);
    case 'tool-length':
      return readsAny([5401 + index, 5081 + index]) || writesTools(line, context);
    default:
      return false;
  }
}

/** G10 L1, L10, L11: the tool table. */
function writesTools(line: number, { analysis }: CheckContext): boolean {
  const block = analysis.source.block(line);
  const l = wordsOf(block).find(({ letter }) => letter === 'L');
  return hasCode(block, ['G10']) && l !== undefined && [1, 10, 11, 12, 13].includes(literal(l.value) ?? 0);
}

function report(read: StaleRead, context: CheckContext): Report {
  const { touch, place, since, axis } = read;
  return {
    message: wording(read, context),
    place,
    related: [
      ...(since.kind === 'another-touch' && since.earlier.file === null
        ? [{ message: `the touch along ${axis.toUpperCase()} that is lost`, place: since.earlier.place }]
        : []),
      ...(touch.file === null ? [{ message: 'the last touch before it', place: touch.place }] : []),
      ...change(read, context),
    ],
  };
}

function wording({ since, axis, touch }: StaleRead, { profile }: CheckContext): string {
  const name = `#${5061 + axes.indexOf(axis)}`;
  const letter = axis.toUpperCase();
  const off = (apart: number | null, unknown: string) =>
    apart === null
      ? unknown
      : axes.indexOf(axis) >= 3
        ? `${Number(apart.toFixed(3))}°`
        : lengthText(apart, readerUnit(touch.modes, profile));
  switch (since.kind) {
    case 'units':
      return `${name} was latched under ${since.from}, and ${since.to} is in force here: a control that keeps the number gives a place that is 25.4 times ${since.from === 'G21' ? 'too far' : 'too near'}.`;
    case 'selected':
      return `${name} counts from the origin of ${since.from}, in which the touch was made, and ${since.to} is in force here: what is moved or set by it is off by ${off(since.apart, 'the distance of the two origins')} in ${letter}.`;
    case 'written':
      return `The ${letter} origin of ${since.system} was written after the touch, and ${name} still counts from the old one: what is moved or set by it is off by ${off(since.apart, 'as much as the origin was moved')}.`;
    case 'shifted':
      return `G92 or G52 shifted ${letter} after the touch, and ${name} still counts from where the origin was: what is moved or set by it is off by ${off(since.apart, 'the shift')}.`;
    case 'tool-length':
      return `Another tool length is in force than at the touch, and ${name} still holds the old one: what is moved or set by it is off by ${off(since.apart, 'the difference of the lengths')} in ${letter}.`;
    case 'another-touch':
      return `The touch of ${lineName(touch.line)} wrote over ${name}: it holds where ${letter} stood at that touch, and what the touch along ${letter} of ${lineName(since.earlier.line)} found is lost.`;
  }
}

const changing = {
  units: ['G20', 'G21'],
  selected: ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3', 'G54.1'],
  written: ['G10'],
  shifted: ['G92', 'G92.1', 'G92.2', 'G92.3', 'G52'],
  'tool-length': ['G43', 'G43.1', 'G43.2', 'G44', 'G49'],
} as const;

/** The last block between touch and reading that has such a code, where the text shows them in this order. */
function change({ touch, place, since }: StaleRead, { analysis }: CheckContext): Finding['related'] {
  if (since.kind === 'another-touch' || touch.file !== null) return [];
  const { source } = analysis;
  const sets = new Set(
    since.kind === 'written'
      ? parameterUses(source).flatMap((uses) => (setsOffset(uses) ? uses.line : []))
      : [],
  );
  for (let line = place.line; line > touch.line; line--)
    if (source.classOf(line) === 2)
      if (sets.has(line) || hasCode(source.block(line), changing[since.kind]))
        return [{ message: 'changed here', place: wholeLine(source, line) }];
  return [];
}

function setsOffset({ sets }: ParameterUses): boolean {
  return sets.some(({ name }) => name !== null && /^(52|53|7)\d\d\d?$/.test(name));
}
