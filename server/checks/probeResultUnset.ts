import type { Graph } from '../analysis/graph.ts';
import { linesWithin } from '../analysis/linesWithin.ts';
import { type ParameterRead, parameterUses } from '../analysis/parameterUses.ts';
import type { Source } from '../syntax/source.ts';
import { literal, takesArguments, wordsOf } from './blockFacts.ts';
import type { CheckContext, Rule } from './rule.ts';

export const probeResultUnset: Rule = {
  id: 'probe-result-unset',
  severity: 'error',
  title: 'the result of a touch is read before any touch',
  what: 'The main program of a file with touches reads #5061 … #5069 where no path has come by a touch yet. A call, a code that the shop may have made a call of, and a G word that is computed may hold a touch: behind them the rule is quiet, and so it is in subroutines.',
  why: 'The parameter holds what the last program left there, or 0: the datum, or the next move, comes from another part.',
  instead: 'Touch first, then read the result.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z5
G10 L2 P1 Z[#5223 + #5063]
G38.2 Z-10 F40
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 X0. Y0. Z5.
#101=#5063
G31 Z-10. F40.
G0 Z5.
IF[ABS[#5063+10.]LT0.05]GOTO90
#5223=#5223+#101
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
G38.2 Z-10 F40
G0 Z5
G10 L2 P1 Z[#5223 + #5063]
M2
`,
    },
  ],
  *check({ analysis }: CheckContext) {
    const { procedures, graphs, source, touches, flowFaults, notKnown } = analysis;
    const graph = graphs.find(({ procedure }) => procedure === procedures.main);
    if (!graph || touches.length === 0 || flowFaults.length > 0 || notKnown.length > 0) return;
    const read = new Map<number, ParameterRead[]>();
    for (const { line, reads } of parameterUses(source)) {
      const results = reads.filter(isResult);
      if (results.length > 0) read.set(line, results);
    }
    if (read.size === 0) return;
    const touching = new Set(touches.map(({ line }) => line));
    for (const line of untouchedLines(graph, source, touching))
      for (const { name, place } of (read.get(line) ?? []).slice(0, 1))
        yield {
          message: `No touch comes before this on any path: #${name} holds what an earlier program left there, or 0.`,
          place,
        };
  },
};

function isResult({ name, how }: ParameterRead): boolean {
  return (how === 'value' || how === 'test') && name !== null && /^506[1-9]$/.test(name);
}

/** Lines that are not plain and that every path reaches before any touch, in no order. */
function* untouchedLines(graph: Graph, source: Source, touching: ReadonlySet<number>): Iterable<number> {
  const others = Array.from(source.otherLines(), (line) => ({ line }));
  const own = graph.nodes.map(({ ranges, actionLine, action }) => {
    const before: number[] = [];
    const lines = linesWithin(others, ranges).map(({ line }) => line);
    if (action && !lines.includes(actionLine)) lines.push(actionLine);
    let touched = false;
    for (const line of lines) {
      if (!touched) before.push(line);
      touched ||= touching.has(line) || mayTouch(source, line);
    }
    return { before, touched: touched || action?.kind === 'call' };
  });
  const reached = new Set([0]);
  const touched = new Set<number>();
  const waiting = [0];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    const isTouched = touched.has(id) || own[id]?.touched === true;
    for (const to of graph.nodes[id]?.successors ?? []) {
      if (to < 0 || (reached.has(to) && (!isTouched || touched.has(to)))) continue;
      reached.add(to);
      if (isTouched) touched.add(to);
      waiting.push(to);
    }
  }
  for (const id of reached) if (!touched.has(id)) yield* own[id]?.before ?? [];
}

/** A computed G word, or a code that may be a call. */
function mayTouch(source: Source, line: number): boolean {
  return wordsOf(source.block(line)).some(({ letter, value }) => {
    if (letter !== 'G' && letter !== 'M') return false;
    const code = literal(value);
    return code === null || (letter === 'G' ? takesArguments(code) : code >= 98);
  });
}
