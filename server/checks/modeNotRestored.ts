import type { Handover } from '../analysis/model.ts';
import { codesInForce } from '../analysis/modesAbove.ts';
import type { Source } from '../syntax/source.ts';
import { hasCode, wholeLine } from './blockFacts.ts';
import { isJumpTarget } from './freeNumbers.ts';
import { blocksBefore } from './lineEdits.ts';
import type { CheckContext, Fix, Report, Rule } from './rule.ts';

const groups = ['units', 'distance', 'feedMode', 'plane'] as const;
type Group = (typeof groups)[number];

export const modeNotRestored: Rule = {
  id: 'mode-not-restored',
  severity: 'warning',
  title: 'a subroutine that returns in another mode than it was called in',
  what: 'On some path a subroutine returns with other units, distance mode, plane or feed mode than it was entered with, and the caller moves on before it sets that mode itself. A subroutine that nobody in the file calls may have been entered in any mode: there G91, G93, G18 or G19 left in force is reported where another path leaves G90, G94 or G17.',
  why: 'The caller goes on as if nothing had changed: its next position is taken as a distance, or its lengths as inches.',
  instead:
    'Put the mode back before every return, the one of the failing side too; rs274ngc can keep and restore all modes with M70 and M72, or M73.',
  source: 'common practice, no source; that modes last until another of their group: NISTIR 6556, 3.4',
  fails: [
    {
      dialect: 'rs274ngc',
      program:
        'o<down> sub\n  G91\n  G38.2 Z-10 F40\n  G0 Z5\no<down> endsub\nG21 G90 G94\no<down> call\nG0 X5\nM2\n',
    },
    {
      dialect: 'macro',
      program: 'O1\nG21 G90 G94 G17\nM98 P2\nG0 X5.\nM30\nO2\nG18\nG1 X1. F300.\nM99\n',
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program:
        'o<down> sub\n  G91\n  G38.2 Z-10 F40\n  G0 Z5\n  G90\no<down> endsub\nG21 G90 G94\no<down> call\nG0 X5\nM2\n',
    },
    {
      dialect: 'rs274ngc',
      program:
        'o<down> sub\n  M73\n  G91\n  G38.2 Z-10 F40\n  G0 Z5\no<down> endsub\nG21 G90 G94\no<down> call\nG0 X5\nM2\n',
    },
  ],
  *check(context) {
    const returns = context.analysis.handovers.filter(({ kind }) => kind === 'return');
    const byPlace = new Map<number, Handover[]>();
    for (const each of returns) byPlace.set(each.place.line, [...(byPlace.get(each.place.line) ?? []), each]);
    for (const here of byPlace.values()) {
      const [first] = here;
      if (!first) continue;
      const report = first.openSubroutine ? openReturn(first, returns) : calledReturn(here, context);
      if (report) yield report;
    }
  },
};

/**
 * A code left in force, where the one before is known and another; null: nothing changed that is known. A caller's loop
 * brings back what the subroutine has left: then not all modes that it was entered in are among those that it leaves.
 */
function changeOf({ before, after }: Handover, group: Group): { from: string; to: string } | null {
  const [entered, left] = [before[group], after[group]];
  if ([...entered, ...left].some((code) => code === 'unset' || code === 'unknown')) return null;
  const to = left.find((code) => !entered.includes(code));
  const lost = entered.find((code) => !left.includes(code));
  if (to === undefined && lost === undefined) return null;
  return { from: lost ?? entered.join(' or '), to: to ?? left.join(' or ') };
}

function calledReturn(here: readonly Handover[], { analysis }: CheckContext): Report | null {
  const { source } = analysis;
  const changes = groups.flatMap((group) =>
    here.flatMap((each) => {
      const change = changeOf(each, group);
      const call = each.calls.at(-1);
      const harms = change !== null && (call === undefined || reliesOn(group, call, source));
      return harms ? [{ ...change, group, call }] : [];
    }),
  );
  const [first] = changes;
  if (!first) return null;
  const told = [...new Map(changes.map((change) => [change.group, change])).values()];
  const lines = new Set(changes.flatMap(({ call }) => call ?? []));
  return {
    message: `The subroutine returns here in ${told.map(({ to }) => to).join(', ')}; it was called in ${told.map(({ from }) => from).join(', ')}, and the caller moves on without setting it.`,
    place: (here[0] as Handover).place,
    related: [...lines].map((line) => ({ message: 'called here', place: wholeLine(source, line) })),
    fixes: restoreFix(
      here,
      told.map(({ group }) => group),
      source,
    ),
  };
}

const mostLinesBehind = 200;

/** Whether the caller moves behind the call before it sets that mode itself, as far as its text runs on. */
function reliesOn(group: Group, call: number, source: Source): boolean {
  for (let line = call + 1; line < Math.min(source.lineCount, call + mostLinesBehind); line++) {
    const kind = source.classOf(line);
    if (kind === 1) return true;
    if (kind === 0) continue;
    const block = source.block(line);
    const inForce = codesInForce(block, source.dialect.name);
    if (inForce === null) return !hasCode(block, ['M2', 'M30', 'M99', 'G65', 'G66', 'G66.1', 'M98', 'M72']);
    if (inForce[group] !== undefined) return false;
    for (const item of block.items) {
      if (item.kind === 'word' && /^[A-CFU-Z@^]$/.test(item.letter)) return true;
      if (item.kind !== 'flow' || item.form !== 'o-word') continue;
      // The end of the caller, or another subroutine that may set it.
      if (/^(sub|endsub|return|call)$/.test(item.keyword)) return false;
    }
  }
  return false;
}

/** The modes of the caller put back before the return, where they are one and the same for all calls. */
function restoreFix(here: readonly Handover[], changed: readonly Group[], source: Source): Fix[] {
  const line = here[0]?.place.line ?? 0;
  const number = source.block(line).lineNumber?.value ?? null;
  if (restoresAtReturn(here[0], source)) return [];
  if (source.dialect.name === 'macro' && number !== null && isJumpTarget(source, number)) return [];
  const codes = changed.map((group) => new Set(here.flatMap(({ before }) => before[group])));
  if (codes.some((each) => each.size !== 1)) return [];
  const text = codes.flatMap((each) => [...each]).join(' ');
  return [
    {
      title: `Put ${text} back before the return`,
      edits: [blocksBefore(source, line, [text])],
      changesMotion: true,
    },
  ];
}

/** M73: the control itself puts back what held at it, whatever is set before the return. */
function restoresAtReturn(handover: Handover | undefined, source: Source): boolean {
  if (!handover) return false;
  for (const line of source.otherLines())
    if (line > handover.header && line < handover.place.line && hasCode(source.block(line), ['M73']))
      return true;
  return false;
}

/** Modes that a caller is seldom in. */
const unusual = new Set(['G91', 'G93', 'G18', 'G19']);
const usual = new Set(['G90', 'G94', 'G17']);

function openReturn(here: Handover, returns: readonly Handover[]): Report | null {
  const others = returns.filter(({ header }) => header === here.header);
  const left = groups.flatMap((group) => {
    const differs = others.some(({ after }) => after[group].some((code) => usual.has(code)));
    return differs ? here.after[group].filter((code) => unusual.has(code)) : [];
  });
  if (left.length === 0) return null;
  return {
    message: `On some path the subroutine returns here in ${left.join(', ')}, and on another it does not: whatever the caller was in, it is wrong for one of them.`,
    place: here.place,
  };
}
