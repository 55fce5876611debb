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
  /** null: the file holds subroutines only, or nothing at all. */
  readonly main: Procedure | null;
  /** Nothing in it does anything. */
  readonly isEmpty: boolean;
  nodesOf(procedure: Procedure): readonly RunNode[];
}

export interface RunStep {
  readonly line: number;
  readonly block: Block;
  /** Nothing in it can move the zero of the work coordinates. */
  readonly keepsZero: boolean;
}

/** A stretch of blocks with one way in and one way out. */
export interface RunNode {
  readonly steps: readonly RunStep[];
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
    isEmpty: procedures.all.length === 0,
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
    const steps: RunStep[] = [];
    for (const [from, to] of node.ranges)
      for (let line = from; line < to; line++) {
        if (lines.classOf(line) === 0) continue;
        const block = withoutComments(lines.block(line), program);
        if (block.items.some((item) => doesSomething(item, lines.dialect.name)))
          steps.push({ line, block, keepsZero: block.items.every(keepsZero) });
      }
    const first = node.ranges[0]?.[0];
    const label = first === undefined ? null : (lines.block(first).lineNumber?.value ?? null);
    return { steps, action: node.action, actionLine: node.actionLine, successors: node.successors, label };
  });
}

/** A block that runs ten thousand times is not asked each time about comments that only comment; a message of #3000 stays. */
function withoutComments(block: Block, { lines }: JoinedProgram): Block {
  const { dialect } = lines;
  if (dialect.name === 'macro') return block;
  const items = block.items.filter(
    (item) => item.kind !== 'comment' || readMessage(block, item, dialect) !== null,
  );
  return items.length < block.items.length ? { ...block, items } : block;
}

/** Comments of the macro family, numbers of lines and words of flow are the driver's or nobody's. */
function doesSomething(item: Block['items'][number], dialect: DialectName): boolean {
  if (item.kind === 'comment') return dialect === 'rs274ngc';
  if (item.kind === 'word') return item.letter !== 'O' && item.letter !== 'N';
  return item.kind === 'setting' || item.kind === 'output';
}

const motions = new Set([0, 1, 2, 3, 4, 31, 38.2, 38.3, 38.4, 38.5, 53, 80, 90, 91]);

/** Offsets, tools and units are kept by motions and by settings of numbers that hold none of them. */
function keepsZero(item: Block['items'][number]): boolean {
  if (item.kind === 'setting') {
    const { index } = item.target;
    return 'name' in index || ('number' in index && index.number < 1000);
  }
  if (item.kind !== 'word') return item.kind === 'comment';
  if (item.letter === 'M') return false;
  return item.letter !== 'G' || (item.value.kind === 'number' && motions.has(item.value.value));
}
