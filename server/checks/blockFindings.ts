import type { Chunk } from '../syntax/chunk.ts';
import type { Dialect } from '../syntax/dialect.ts';
import type { Source } from '../syntax/source.ts';
import { sorted } from './findingOrder.ts';
import type { CheckContext, Finding, Report, Rule } from './rule.ts';

interface Found {
  readonly dialect: Dialect;
  /** The part of the chunk that is in the program, and the chunk's first line: findings hold for these. */
  readonly from: number;
  readonly to: number;
  readonly firstLine: number;
  /** What a rule was told about the certainty of the dialect; null: none asked. */
  readonly certain: boolean | null;
  readonly findings: readonly Finding[];
}

/** The findings of all rules that look at single blocks, kept with the chunks that the blocks are in. */
export class BlockFindings {
  /** Blocks that were looked at, again and again where they were: what edits cost. */
  blocksLookedAt = 0;
  readonly #known = new WeakMap<Chunk, Found>();
  readonly #rules: readonly Rule[];
  readonly #present: (rule: Rule, report: Report) => Finding;

  /** @param rules with `checkBlock`; for one profile */
  constructor(rules: readonly Rule[], present: (rule: Rule, report: Report) => Finding) {
    this.#rules = rules;
    this.#present = present;
  }

  /** In the order of the text. Yields after each chunk that had to be read. */
  *of(context: CheckContext): Generator<void, Finding[]> {
    const { source } = context.analysis;
    const all: Finding[] = [];
    for (const { chunk, firstLine, isOther } of source.otherChunks()) {
      let found = this.#remembered(chunk, firstLine, source, context);
      if (!found) {
        found = this.#find(chunk, firstLine, isOther, context);
        this.#known.set(chunk, found);
        yield;
      }
      for (const finding of found.findings) all.push(finding);
    }
    return all;
  }

  #remembered(chunk: Chunk, firstLine: number, source: Source, context: CheckContext): Found | null {
    const known = this.#known.get(chunk);
    const part = partOf(chunk, firstLine, source);
    if (known?.dialect !== source.dialect || known.from !== part.from || known.to !== part.to) return null;
    if (known.certain !== null && known.certain !== context.isDialectCertain()) return null;
    if (known.firstLine === firstLine || known.findings.length === 0) return known;
    const by = firstLine - known.firstLine;
    const moved = { ...known, firstLine, findings: known.findings.map((finding) => movedBy(finding, by)) };
    this.#known.set(chunk, moved);
    return moved;
  }

  #find(chunk: Chunk, firstLine: number, isOther: (line: number) => boolean, context: CheckContext): Found {
    const { source } = context.analysis;
    const part = partOf(chunk, firstLine, source);
    let certain: boolean | null = null;
    const isDialectCertain = () => {
      certain = context.isDialectCertain();
      return certain;
    };
    const inChunk: CheckContext = { ...context, isDialectCertain };
    const findings: Finding[] = [];
    for (let local = part.from; local < part.to; local++) {
      if (!isOther(local)) continue;
      this.blocksLookedAt++;
      const line = firstLine + local;
      const block = source.block(line);
      for (const rule of this.#rules)
        for (const report of rule.checkBlock?.(block, line, inChunk) ?? [])
          findings.push(this.#present(rule, report));
    }
    return { dialect: source.dialect, ...part, firstLine, certain, findings: sorted(findings) };
  }
}

function partOf(chunk: Chunk, firstLine: number, { programStart, programEnd }: Source) {
  return {
    from: Math.max(0, programStart - firstLine),
    to: Math.min(chunk.lineCount, programEnd - firstLine),
  };
}

function movedBy(finding: Finding, by: number): Finding {
  const moved = <T extends { readonly line: number }>(place: T): T => ({ ...place, line: place.line + by });
  return {
    ...finding,
    place: moved(finding.place),
    related: finding.related.map((each) => ({ ...each, place: moved(each.place) })),
    fixes: finding.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...moved(edit), endLine: edit.endLine + by })),
    })),
  };
}
