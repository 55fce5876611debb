import type { Graph, Node } from '../analysis/graph.ts';
import { linesWithin } from '../analysis/linesWithin.ts';
import { type ParameterRead, parameterUses } from '../analysis/parameterUses.ts';
import { ChunkFacts } from '../syntax/chunkFacts.ts';
import { literal } from '../syntax/literal.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';
import { takesArguments, wordsOf } from './blockFacts.ts';
import type { CheckContext, Rule } from './rule.ts';
import { untestedTouches } from './untestedUses.ts';

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
  *check(context: CheckContext) {
    const { analysis } = context;
    const { procedures, graphs, source, touches, flowFaults, notKnown } = analysis;
    const graph = graphs.find(({ procedure }) => procedure === procedures.main);
    if (!graph || touches.length === 0 || flowFaults.length > 0 || notKnown.length > 0) return;
    const reads = parameterUses(source).flatMap(({ line, reads }) => {
      const results = reads.filter(isResult);
      return results.length > 0 ? [{ line, results }] : [];
    });
    if (reads.length === 0) return;
    yield* codes.lookThrough(source);
    const touching = [...touches.map(({ line }) => line), ...mayTouch(source)];
    // A test that stands before the touch it should test is told as that.
    const early = new Set(untestedTouches(context).flatMap(({ staleTest }) => staleTest?.place.line ?? []));
    for (const { name, place } of yield* firstReads(graph, eventsOf(reads, touching)))
      if (!early.has(place.line))
        yield {
          message: `No touch comes before this on any path: #${name} holds what an earlier program left there, or 0.`,
          place,
        };
  },
};

function isResult({ name, how }: ParameterRead): boolean {
  return (how === 'value' || how === 'test') && name !== null && /^506[1-9]$/.test(name);
}

/** What a line does to the matter; it reads before it touches. */
interface Event {
  readonly line: number;
  readonly read: ParameterRead | null;
  readonly touches: boolean;
}

/** In the order of their lines. */
function eventsOf(
  reads: readonly { readonly line: number; readonly results: readonly ParameterRead[] }[],
  touching: readonly number[],
): Event[] {
  const events = new Map<number, Event>();
  for (const { line, results } of reads) events.set(line, { line, read: results[0] ?? null, touches: false });
  for (const line of touching)
    events.set(line, { line, read: events.get(line)?.read ?? null, touches: true });
  return [...events.values()].sort((a, b) => a.line - b.line);
}

/** The reads that every path reaches before any touch; yields undefined where it may pause. */
function* firstReads(graph: Graph, events: readonly Event[]): Generator<undefined, ParameterRead[]> {
  const untouched = new Map<number, readonly ParameterRead[]>([[0, []]]);
  const touched = new Set<number>();
  for (const id of untouched.keys()) {
    const node = graph.nodes[id];
    if (!node) continue;
    const { reads, touches } = passing(node, events);
    untouched.set(id, reads);
    for (const to of node.successors)
      if (to >= 0 && touches) touched.add(to);
      else if (to >= 0 && !untouched.has(to)) untouched.set(to, []);
    if (untouched.size % atOnce === 0) yield undefined;
  }
  for (const id of touched) {
    for (const to of graph.nodes[id]?.successors ?? []) if (to >= 0) touched.add(to);
    if (id % atOnce === 0) yield undefined;
  }
  return [...untouched].flatMap(([id, reads]) => (touched.has(id) ? [] : reads));
}

/** Nodes taken between two pauses. */
const atOnce = 1000;

/** What a node reads before it touches, and whether it does. */
function passing({ ranges, action, actionLine }: Node, events: readonly Event[]) {
  const own = linesWithin(events, ranges);
  if (action && !own.some(({ line }) => line === actionLine))
    own.push(...linesWithin(events, [[actionLine, actionLine + 1]]));
  const first = own.findIndex(({ touches }) => touches);
  const before = first < 0 ? own : own.slice(0, first + 1);
  return {
    reads: before.flatMap(({ read }) => read ?? []),
    touches: first >= 0 || action?.kind === 'call',
  };
}

/** Lines with a computed G word, or a code that may be a call. */
function* mayTouch(source: Source): Iterable<number> {
  for (const { firstLine, fact } of codes.in(source))
    for (const line of fact) if (source.classOf(firstLine + line) === 2) yield firstLine + line;
}

const codes = new ChunkFacts<readonly number[]>((chunk, lines, dialect) => {
  const found = lines.filter((line) => {
    const text = chunk.line(line);
    return mayBeCode.test(text) && holdsTouch(parseBlock(text, dialect));
  });
  return found.length > 0 ? found : null;
});

/** A G or M with a value of two digits or more, or a computed one; blanks count for nothing. */
const mayBeCode = /[gm]\s*(?:[#[+-]|[\d.]\s*[\d.])/i;

function holdsTouch(block: Block): boolean {
  return wordsOf(block).some(({ letter, value }) => {
    if (letter !== 'G' && letter !== 'M') return false;
    const code = literal(value);
    return code === null || (letter === 'G' ? takesArguments(code) : code >= 98);
  });
}
