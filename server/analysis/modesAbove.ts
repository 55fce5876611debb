import { codeName, codeOf } from '../program/codes.ts';
import { modeEffect } from '../program/effects.ts';
import { letterBit, letterIndex } from '../syntax/plainTotals.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';
import { flowLines } from './flowLines.ts';
import type { Graph, Node } from './graph.ts';

const groups = ['motion', 'plane', 'feedMode', 'distance', 'units'] as const;
type Group = (typeof groups)[number];

/** The code in force; null where the text above does not tell, or paths may differ. */
export type ModesBefore = Readonly<Record<Group, string | null>>;

/** Lines that are looked at for one question. */
const mostLines = 20_000;
export const nothingAbove: ModesBefore = {
  motion: null,
  plane: null,
  feedMode: null,
  distance: null,
  units: null,
};

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly node: Node;
  readonly graph: Graph;
}

/** Answers for one version of a program. */
export function modesAbove(
  source: Source,
  graphs: readonly Graph[],
): { readonly before: (line: number) => ModesBefore } {
  // A macro that is called after motions may leave any mode in force.
  return callsAfterMotions(source) ? { before: () => nothingAbove } : new ModesAbove(source, graphs);
}

function callsAfterMotions(source: Source): boolean {
  return (
    source.dialect.name === 'macro' &&
    flowLines(source).some(({ block }) =>
      block.items.some(
        (item) =>
          item.kind === 'word' &&
          item.letter === 'G' &&
          item.value.kind === 'number' &&
          Math.trunc(item.value.value) === 66,
      ),
    )
  );
}

/**
 * What the text above a line puts in force, followed backwards for as long as there is one way to come: up to a label, a
 * loop's head or a call. For the rare blocks that a rule asks about; nothing is followed forwards.
 */
class ModesAbove {
  readonly #stretches: readonly Stretch[];
  readonly #predecessors = new Map<Graph, (readonly Node[])[]>();

  constructor(
    private readonly source: Source,
    graphs: readonly Graph[],
  ) {
    this.#stretches = graphs
      .flatMap((graph) =>
        graph.nodes.flatMap((node) => node.ranges.map(([from, to]) => ({ from, to, node, graph }))),
      )
      .sort((a, b) => a.from - b.from);
  }

  before(line: number): ModesBefore {
    const found: Record<Group, string | null> = { ...nothingAbove };
    const open = new Set<Group>(groups);
    let stretch = this.#stretchOf(line);
    let at = line;
    let left = mostLines;
    while (stretch) {
      left -= this.#readBack(stretch.from, at, open, found, left);
      if (open.size === 0 || left <= 0) break;
      const above = this.#above(stretch);
      stretch = above;
      at = above?.to ?? 0;
    }
    return found;
  }

  #stretchOf(line: number): Stretch | null {
    let low = 0;
    let high = this.#stretches.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((this.#stretches[middle] as Stretch).from <= line) low = middle;
      else high = middle - 1;
    }
    const found = this.#stretches[low];
    return found && line >= found.from && line < found.to ? found : null;
  }

  /** Reads lines backwards from before `to`; gives how many were looked at. */
  #readBack(
    from: number,
    to: number,
    open: Set<Group>,
    found: Record<Group, string | null>,
    most: number,
  ): number {
    let looked = 0;
    for (let line = to - 1; line >= from && open.size > 0 && looked < most; line--) {
      looked++;
      const held = this.source.chunkAt(line);
      const totals = held?.chunk.totals;
      if (held && totals && held.firstLine >= from && line === held.firstLine + held.chunk.lineCount - 1) {
        if (open.has('motion') && totals.letters & letterBit('G'))
          this.#set('motion', `G${totals.last(letterIndex('G'))}`, open, found);
        line = held.firstLine;
        continue;
      }
      const kind = this.source.classOf(line);
      if (kind === 2) this.#readBlock(this.source.block(line), open, found);
      else if (kind === 1 && open.has('motion')) {
        const motion = /g[ \t]*0*([0-3])(?![\d.])/i.exec(this.source.text.line(line))?.[1];
        if (motion) this.#set('motion', `G${motion}`, open, found);
      }
    }
    return looked;
  }

  #set(group: Group, code: string | null, open: Set<Group>, found: Record<Group, string | null>): void {
    found[group] = code;
    open.delete(group);
  }

  #readBlock(block: Block, open: Set<Group>, found: Record<Group, string | null>): void {
    const inBlock = codesInForce(block, this.source.dialect.name);
    if (inBlock === null) open.clear();
    else for (const group of [...open]) if (inBlock[group]) this.#set(group, inBlock[group], open, found);
  }

  /** The stretch that runs before this one, where there is one way to come. */
  #above({ graph, node, from }: Stretch): Stretch | null {
    const own = node.ranges.findIndex(([start]) => start === from);
    if (own > 0) return this.#lastOf(graph, node, own - 1);
    const before = this.#predecessorsOf(graph)[node.id] ?? [];
    const [only] = before;
    if (before.length !== 1 || !only || node.id === 0 || only.action?.kind === 'call') return null;
    return this.#lastOf(graph, only, only.ranges.length - 1);
  }

  #lastOf(graph: Graph, node: Node, at: number): Stretch | null {
    const range = node.ranges[at];
    return range ? { from: range[0], to: range[1], node, graph } : null;
  }

  #predecessorsOf(graph: Graph): (readonly Node[])[] {
    const known = this.#predecessors.get(graph);
    if (known) return known;
    const before: Node[][] = graph.nodes.map(() => []);
    for (const node of graph.nodes)
      for (const to of new Set(node.successors)) if (to >= 0) before[to]?.push(node);
    this.#predecessors.set(graph, before);
    return before;
  }
}

/** The codes that a block itself puts in force; null where it may put anything in force. */
export function codesInForce(
  block: Block,
  dialect: Source['dialect']['name'],
): Readonly<Partial<Record<Group, string>>> | null {
  const found: Partial<Record<Group, string>> = {};
  if (block.blockDelete) return null;
  for (const item of block.items) {
    if (item.kind !== 'word' || (item.letter !== 'G' && item.letter !== 'M')) continue;
    if (item.value.kind !== 'number') return null;
    const name = codeName(item.letter, item.value.value);
    if (name === null || leavesAnything.has(name)) return null;
    const moves = codeOf(item.letter, item.value.value, dialect)?.group;
    if (moves === 'motion' || moves === 'canned cycle') found.motion = name;
    const group = modeEffect(name, dialect)?.group;
    if (group && isFollowed(group)) found[group] = name;
  }
  return found;
}

function isFollowed(group: string): group is Group {
  return (groups as readonly string[]).includes(group);
}

/** Calls, ends and restored modes. */
const leavesAnything = new Set('G65 G66 G66.1 M98 M97 M99 M2 M30 M72'.split(' '));
