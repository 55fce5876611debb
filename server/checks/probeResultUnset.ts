import { type ParameterRead, parameterUses } from '../analysis/parameterUses.ts';
import { ChunkFacts } from '../syntax/chunkFacts.ts';
import { literal } from '../syntax/literal.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';
import { lineName, takesArguments, wholeLine, wordsOf } from './blockFacts.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { untestedTouches } from './untestedUses.ts';
import { type Event, untouchedReads } from './untouchedReads.ts';

export const probeResultUnset: Rule = {
  id: 'probe-result-unset',
  severity: 'error',
  title: 'the result of a touch is read before any touch',
  what: 'The main program of a file with touches reads #5061 … #5069 where no path has come by a touch yet, or where one side of a test passes the only touch by and comes to the same read. A read under a condition of its own is left alone: it may ask what the touch hung on. A call, a code that the shop may have made a call of, and a G word that is computed may hold a touch: behind them the rule is quiet, and so it is in subroutines.',
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
    for (const { read, past } of yield* untouchedReads(graph, eventsOf(reads, touching)))
      if (!early.has(read.place.line)) yield report(read, past, source);
  },
};

function report({ name, place }: ParameterRead, past: number | null, source: Source): Report {
  const where = past === null ? 'on any path' : `where ${lineName(past)} passes the touch by`;
  return {
    message: `No touch comes before this ${where}: #${name} holds what an earlier program left there, or 0.`,
    place,
    related: past === null ? [] : [{ message: 'the way past the touch', place: wholeLine(source, past) }],
  };
}

function isResult({ name, how }: ParameterRead): boolean {
  return (how === 'value' || how === 'test') && name !== null && /^506[1-9]$/.test(name);
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
