import { callSites } from '../analysis/callSites.ts';
import type { Graph } from '../analysis/graph.ts';
import type { Procedures } from '../analysis/procedures.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';
import { hasCode, lineName, wholeLine } from './blockFacts.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const unreachableBlock: Rule = {
  id: 'unreachable-block',
  severity: 'info',
  title: 'blocks that no path gets to',
  what: 'The blocks stand behind a jump, a return or the program’s end, and nothing jumps to them. Told once for each run of blocks. Where a jump is computed, or a subprogram may return to an N number, nothing is said of the blocks that it may lead to.',
  why: 'They never run. Where they hold the retract or the test that was meant, the program goes without.',
  instead: 'Put them before the jump, give them a label that something jumps to, or take them out.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'macro',
      program: 'G21 G90 G94\nIF[#101GT2]GOTO10\nG0 X5.\nGOTO20\nG0 Z50.\nN10 G0 X6.\nN20 M30\n',
    },
    {
      dialect: 'rs274ngc',
      program: 'o<go> sub\n  G0 X5\n  o<go> return\n  G0 Z50\no<go> endsub\nG21 G90 G94\no<go> call\nM2\n',
    },
  ],
  passes: [
    { dialect: 'macro', program: 'G21 G90 G94\nIF[#101GT2]GOTO10\nG0 X5.\nGOTO20\nN10 G0 X6.\nN20 M30\n' },
    {
      dialect: 'rs274ngc',
      program:
        'o<go> sub\n  o1 if [#1 GT 0]\n    o<go> return\n  o1 endif\n  G0 Z50\no<go> endsub\nG21 G90 G94\no<go> call [1]\nM2\n',
    },
  ],
  *check({ analysis }: CheckContext) {
    const { source, graphs, procedures, flowFaults } = analysis;
    // Where the flow does not fit together, what is reached is a guess.
    if (flowFaults.length > 0) return;
    let mayReturnToLabel: boolean | null = null;
    for (const graph of graphs) {
      if (graph.notKnown.length > 0) continue;
      const reached = yield* reachedFrom(graph, [0]);
      if (reached.size === graph.nodes.length) continue;
      mayReturnToLabel ??= returnsToLabels(source, procedures);
      if (mayReturnToLabel) {
        const labelled = graph.nodes.filter(({ ranges }) => hasLabel(source, ranges[0]?.[0]));
        for (const id of yield* reachedFrom(
          graph,
          labelled.map(({ id }) => id),
        ))
          reached.add(id);
      }
      yield* reports(graph, reached, source);
    }
  },
};

/** Nodes taken between two pauses. */
const atOnce = 2000;

function* reachedFrom(graph: Graph, starts: readonly number[]): Generator<undefined, Set<number>> {
  const reached = new Set<number>();
  const waiting = [...starts];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (id < 0 || reached.has(id)) continue;
    reached.add(id);
    if (reached.size % atOnce === 0) yield undefined;
    for (const next of graph.nodes[id]?.successors ?? []) waiting.push(next);
  }
  return reached;
}

/** M96, M97 or M99 P or M98 H in the file, or a call into another one: the control may go on at any N number. */
function returnsToLabels(source: Source, { byName }: Procedures): boolean {
  if (source.dialect.oWords) return false;
  for (const { name } of callSites(source)) if (!byName.has(name)) return true;
  for (const line of source.otherLines()) {
    const block = source.block(line);
    const letter = hasCode(block, ['M96', 'M97', 'M99']) ? 'P' : hasCode(block, ['M98']) ? 'H' : null;
    if (letter !== null && block.items.some((i) => i.kind === 'word' && i.letter === letter)) return true;
  }
  return false;
}

function hasLabel(source: Source, line: number | undefined): boolean {
  return line !== undefined && source.block(line).lineNumber !== undefined;
}

function* reports(graph: Graph, reached: ReadonlySet<number>, source: Source): Iterable<Report> {
  let run: number[] = [];
  for (const { id, ranges } of graph.nodes) {
    if (!reached.has(id)) {
      for (const [from, to] of ranges) run.push(...actingLines(source, from, to));
    } else if (ranges.length > 0) {
      yield* report(run, source);
      run = [];
    }
  }
  yield* report(run, source);
}

/** The first and the last line that do something. */
function actingLines(source: Source, from: number, to: number): number[] {
  const acts = (line: number) => {
    const kind = source.classOf(line);
    return kind === 1 || (kind === 2 && isAction(source.block(line)));
  };
  let [first, last] = [from, to - 1];
  while (first < to && !acts(first)) first++;
  if (first === to) return [];
  while (last > first && !acts(last)) last--;
  return [first, last];
}

/** Ends, returns and keywords that only close something are often written where nothing gets to. */
function isAction(block: Block): boolean {
  if (hasCode(block, ['M2', 'M30', 'M99'])) return false;
  return block.items.some(
    (item) =>
      item.kind === 'setting' || item.kind === 'output' || (item.kind === 'word' && item.letter !== 'O'),
  );
}

function* report(run: readonly number[], source: Source): Iterable<Report> {
  const [first, last] = [run[0], run.at(-1)];
  if (first === undefined || last === undefined) return;
  yield {
    message:
      first === last
        ? 'No path gets to this block: it never runs.'
        : `No path gets to this block and those up to ${lineName(last)}: they never run.`,
    place: wholeLine(source, first),
  };
}
