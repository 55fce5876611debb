import type { Graph } from '../analysis/graph.ts';
import { type Loop, loopsOf } from '../analysis/loops.ts';
import type { Touch } from '../analysis/model.ts';
import { type ParameterUses, parameterUses } from '../analysis/parameterUses.ts';
import { isAxisWord } from '../program/state.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import { hasCode, lineName, wholeLine } from './blockFacts.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const unboundedRetry: Rule = {
  id: 'unbounded-retry',
  severity: 'warning',
  title: 'a loop that repeats a touch, or waits for the probe, without a count that ends it',
  what: 'A loop, also a jump back to a label, holds a touch or only waits, and every way out of it rests on nothing but what the probe says: #5070, a latched position, a status input, or a copy of one. A loop that stops for the operator (M0, M1, #3006), counts, or leaves on anything else is left alone.',
  why: 'Where the part is missing, the cable is cut or the probe is already tripped, the machine repeats the same move until somebody notices, or waits for ever.',
  instead: 'Count the attempts, and stop with a message after a few.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
o1 do
  G0 Z5
  G38.3 Z-10 F40
o1 while [#5070 EQ 0]
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 X0. Y0. Z5.
N10 IF[#1005EQ1]GOTO10 (wait until the probe is off)
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO90
#5223=#5223+#5063
M30
N90 #3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
#<tries> = 0
o1 do
  G0 Z5
  G38.3 Z-10 F40
  #<tries> = [#<tries> + 1]
o1 while [[#5070 EQ 0] AND [#<tries> LT 3]]
G0 Z5
M2
`,
    },
  ],
  *check(context) {
    const { analysis } = context;
    if (analysis.touches.length === 0 || analysis.flowFaults.length > 0) return;
    const told = new Set<number>();
    for (const graph of analysis.graphs)
      for (const loop of loopsOf(graph)) {
        const report = reportOf(graph, loop, context);
        if (!report || told.has(report.place.line)) continue;
        told.add(report.place.line);
        yield report;
      }
  },
};

function reportOf(graph: Graph, loop: Loop, { analysis }: CheckContext): Report | null {
  const { source } = analysis;
  const nodes = graph.nodes.filter(({ id }) => loop.nodes.has(id));
  if (nodes.some(({ action }) => isUnclear(action?.kind))) return null;
  const holds = (line: number) =>
    nodes.some(
      ({ ranges, actionLine }) =>
        line === actionLine || ranges.some(([from, to]) => line >= from && line < to),
    );
  const uses = parameterUses(source).filter(({ line }) => holds(line));
  const told = namesToldByProbe(uses, source.dialect.name);
  const exits = loop.exits
    .filter(({ action }) => action?.kind === 'branch' && action.condition?.kind !== 'number')
    .map(({ actionLine }) => actionLine);
  if (exits.length === 0 || !exits.every((line) => restsOn(told, source.dialect.name, uses, line)))
    return null;
  const touch = analysis.touches.find((each) => !each.away && holds(each.line));
  const lines = nodes.flatMap(({ ranges }) => ranges);
  const isMacro = source.dialect.name === 'macro';
  if (stopsForOperator(lines, source) || (isMacro && uses.some(({ sets }) => sets.some(isStop)))) return null;
  if (!touch && !isWait(lines, exits, source)) return null;
  return wording(touch, wholeLine(source, exits[0] ?? 0));
}

function wording(touch: Touch | undefined, exit: Place): Report {
  if (!touch)
    return {
      message:
        'This loop waits for the probe, and nothing else ends it: with a cut cable or a tripped probe the program hangs here.',
      place: exit,
    };
  return {
    message: `This touch is repeated until the probe says what ${lineName(exit.line)} asks for, and nothing counts the attempts: where that never comes, the machine repeats the move for ever.`,
    place: touch.place,
    related: [{ message: 'the only way out', place: exit }],
  };
}

type Lines = readonly (readonly [number, number])[];
type Text = CheckContext['analysis']['source'];

/** A called program may count, or leave; a computed jump may go anywhere. */
function isUnclear(kind: string | undefined): boolean {
  return kind === 'call' || kind === 'choice' || kind === 'conditional-setting';
}

/** Results and inputs of the probe, and what the loop computes from these alone. */
function namesToldByProbe(uses: readonly ParameterUses[], dialect: DialectName): Set<string> {
  const told = new Set<string>();
  const isTold = (name: string | null) => name !== null && (told.has(name) || isProbes(name, dialect));
  const set = new Set(uses.flatMap(({ sets }) => sets.flatMap(({ name }) => name ?? [])));
  for (let size = -1; size < told.size; ) {
    size = told.size;
    for (const name of set) {
      const from = uses.flatMap(({ reads }) => reads.filter(({ into }) => into === name));
      if (from.length > 0 && from.every((read) => isTold(read.name))) told.add(name);
    }
  }
  return told;
}

function restsOn(
  told: ReadonlySet<string>,
  dialect: DialectName,
  uses: readonly ParameterUses[],
  line: number,
): boolean {
  const reads = uses.filter((each) => each.line === line).flatMap((each) => each.reads);
  const tests = reads.filter(({ how }) => how === 'test' || how === 'value');
  return (
    tests.length > 0 &&
    tests.every(({ name }) => name !== null && (told.has(name) || isProbes(name, dialect)))
  );
}

/** #5061…#5070; the inputs #1000…#1135 are the macro family's. */
function isProbes(name: string, dialect: DialectName): boolean {
  const number = /^\d+$/.test(name) ? Number(name) : 0;
  return (number >= 5061 && number <= 5070) || (dialect !== 'rs274ngc' && number >= 1000 && number <= 1135);
}

function* blocksIn(lines: Lines, source: Text) {
  for (const [from, to] of lines)
    for (let line = from; line < to; line++)
      if (source.classOf(line) !== 0) yield { line, block: source.block(line) };
}

/** The macro family stops with a message by #3006; an alarm by #3000 is no turn of a loop. */
function isStop({ name }: ParameterUses['sets'][number]): boolean {
  return name === '3006';
}

function stopsForOperator(lines: Lines, source: Text): boolean {
  for (const { block } of blocksIn(lines, source)) if (hasCode(block, ['M0', 'M1'])) return true;
  return false;
}

/** Nothing moves in it: it only looks at inputs. */
function isWait(lines: Lines, exits: readonly number[], source: Text): boolean {
  for (const { line, block } of blocksIn(lines, source)) {
    if (exits.includes(line)) continue;
    if (block.items.some((item) => item.kind === 'word' && isAxisWord(item.letter))) return false;
  }
  return true;
}
