import type { ProgramLines } from '../syntax/programLines.ts';
import type { Source } from '../syntax/source.ts';
import { type CalledFiles, calledProcedure } from './calledFiles.ts';
import { type Graph, graphOf, type Node } from './graph.ts';
import { type Procedure, type Procedures, proceduresOf } from './procedures.ts';

/**
 * A program with the files that it calls, as one run of lines: the program's own come first and keep their numbers,
 * those of each called file follow. So whatever counts lines tells files apart too.
 */
export interface JoinedProgram {
  readonly lines: ProgramLines;
  /** The texts that the lines are of: the program's own, and those of the called files. */
  readonly sources: readonly Source[];
  /** Of the program itself. */
  readonly procedures: Procedures;
  readonly graphFor: (procedure: Procedure) => Graph;
  /** The procedure that a call of this name leads to from a line; else why it is not followed. */
  callee(name: string, line: number): Procedure | string;
  /** File and line of a line; null: the program's own. */
  elsewhere(line: number): FilePlace | null;
}

export interface FilePlace {
  readonly uri: string;
  readonly line: number;
}

interface Part {
  readonly file: number | 'program';
  readonly source: Source;
  readonly first: number;
  readonly behind: number;
  readonly procedures: () => Procedures;
}

const notAtHand = 'a call into a file that is not at hand: what it leaves behind is unknown';

export function joinedProgram(
  source: Source,
  own: Pick<JoinedProgram, 'procedures' | 'graphFor'>,
  called: CalledFiles,
): JoinedProgram {
  const parts = partsOf(source, own.procedures, called);
  const partOf = (line: number) => parts.find(({ behind }) => line < behind) ?? (parts.at(-1) as Part);
  const moved = new Map<Procedure, Procedure>();
  const graphs = new Map<Procedure, Graph>();
  /** The walk over graphs tells procedures apart by their lines: one of a called file gets those that it has among all. */
  const placed = (procedure: Procedure, { file, source: text, first }: Part) => {
    if (file === 'program') return procedure;
    const known = moved.get(procedure);
    if (known) return known;
    const there = movedProcedure(procedure, first);
    moved.set(procedure, there);
    graphs.set(there, movedGraph(graphOf(text, procedure), there, first));
    return there;
  };
  return {
    lines: called.files.length === 0 ? source : joinedLines(parts, partOf),
    sources: parts.map((part) => part.source),
    procedures: own.procedures,
    graphFor: (procedure) => graphs.get(procedure) ?? own.graphFor(procedure),
    callee(name, line) {
      const from = partOf(line);
      const near = from.procedures().byName.get(name);
      if (near) return placed(near, from);
      const lead = called.lead(from.file, name);
      if (lead === null) return notAtHand;
      if ('reason' in lead) return lead.reason;
      const target = parts.find(({ file }) => file === lead.file);
      const found = target && calledProcedure(target.procedures(), name, source.dialect.oWords);
      return found ? placed(found, target) : 'the file that it calls holds no subroutine of that name';
    },
    elsewhere(line) {
      const { file, first } = partOf(line);
      const uri = file === 'program' ? null : (called.files[file]?.uri ?? null);
      return uri === null ? null : { uri, line: line - first };
    },
  };
}

function partsOf(source: Source, procedures: Procedures, called: CalledFiles): Part[] {
  const own: Part = {
    file: 'program',
    source,
    first: 0,
    behind: source.lineCount,
    procedures: () => procedures,
  };
  const parts = [own];
  for (const [file, { source: text }] of called.files.entries()) {
    const first = parts.at(-1)?.behind ?? 0;
    const behind = first + text.lineCount;
    parts.push({ file, source: text, first, behind, procedures: () => proceduresOf(text) });
  }
  return parts;
}

function joinedLines(parts: readonly Part[], partOf: (line: number) => Part): ProgramLines {
  let last = parts[0] as Part;
  const at = (line: number) => {
    if (line < last.first || line >= last.behind) last = partOf(line);
    return last;
  };
  return {
    dialect: last.source.dialect,
    lineCount: parts.at(-1)?.behind ?? 0,
    classOf: (line) => at(line).source.classOf(line - last.first),
    block: (line) => at(line).source.block(line - last.first),
    chunkAt(line) {
      const { source, first } = at(line);
      const held = source.chunkAt(line - first);
      return held && { chunk: held.chunk, firstLine: held.firstLine + first, end: held.end + first };
    },
  };
}

function movedProcedure(procedure: Procedure, by: number): Procedure {
  const { place } = procedure;
  return {
    ...procedure,
    header: procedure.header + by,
    ranges: procedure.ranges.map(([from, to]) => [from + by, to + by] as const),
    place: place && { ...place, line: place.line + by },
  };
}

function movedGraph(graph: Graph, procedure: Procedure, by: number): Graph {
  return { procedure, nodes: graph.nodes.map((node) => movedNode(node, by)), faults: [], notKnown: [] };
}

function movedNode(node: Node, by: number): Node {
  const { action } = node;
  return {
    ...node,
    ranges: node.ranges.map(([from, to]) => [from + by, to + by] as const),
    actionLine: node.actionLine < 0 ? node.actionLine : node.actionLine + by,
    action:
      action && 'place' in action
        ? { ...action, place: { ...action.place, line: action.place.line + by } }
        : action,
  };
}
