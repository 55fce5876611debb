import type { Action } from '../analysis/actions.ts';
import { type CalledFiles, noCalledFiles } from '../analysis/calledFiles.ts';
import { type Graph, graphOf } from '../analysis/graph.ts';
import { type JoinedProgram, joinedProgram } from '../analysis/joinedProgram.ts';
import { type Procedure, proceduresOf } from '../analysis/procedures.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { readMessage } from '../syntax/messages.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';

/** A program made ready to be run many times: what its lines do is looked up once. */
export interface CompiledProgram {
  readonly program: JoinedProgram;
  readonly dialect: DialectName;
  /** null: the file holds subroutines only. */
  readonly main: Procedure | null;
  nodesOf(procedure: Procedure): readonly RunNode[];
}

/** A stretch of blocks with one way in and one way out. */
export interface RunNode {
  readonly steps: readonly { readonly line: number; readonly block: Block }[];
  readonly action: Action | null;
  readonly actionLine: number;
  readonly successors: readonly number[];
  /** N number of its first line. */
  readonly label: number | null;
}

export function compileProgram(source: Source, called: CalledFiles = noCalledFiles): CompiledProgram {
  const procedures = proceduresOf(source);
  const graphs = new Map<Procedure, Graph>();
  const graphFor = (procedure: Procedure) => {
    const known = graphs.get(procedure) ?? graphOf(source, procedure);
    graphs.set(procedure, known);
    return known;
  };
  const program = joinedProgram(source, { procedures, graphFor }, called);
  const compiled = new Map<Procedure, readonly RunNode[]>();
  return {
    program,
    dialect: source.dialect.name,
    main: procedures.main,
    nodesOf(procedure) {
      const known = compiled.get(procedure) ?? nodesOf(program, procedure);
      compiled.set(procedure, known);
      return known;
    },
  };
}

function nodesOf(program: JoinedProgram, procedure: Procedure): readonly RunNode[] {
  const { lines } = program;
  return program.graphFor(procedure).nodes.map((node): RunNode => {
    const steps: { line: number; block: Block }[] = [];
    for (const [from, to] of node.ranges)
      for (let line = from; line < to; line++) {
        if (lines.classOf(line) === 0) continue;
        const block = lines.block(line);
        if (doesSomething(block, program)) steps.push({ line, block });
      }
    const first = node.ranges[0]?.[0];
    const label = first === undefined ? null : (lines.block(first).lineNumber?.value ?? null);
    return { steps, action: node.action, actionLine: node.actionLine, successors: node.successors, label };
  });
}

/** Plain comments, numbers of lines and words of flow are the driver's or nobody's. */
function doesSomething(block: Block, { lines }: JoinedProgram): boolean {
  return block.items.some((item) => {
    if (item.kind === 'comment') return readMessage(block, item, lines.dialect) !== null;
    if (item.kind === 'word') return item.letter !== 'O' && item.letter !== 'N';
    return item.kind === 'setting' || item.kind === 'output';
  });
}
