import { ChunkFacts } from './chunkFacts.ts';
import { type Directive, mayHoldDirective, readDirective } from './directives.ts';
import type { Place } from './place.ts';
import type { Source } from './source.ts';
import type { Block } from './tree.ts';

/** `(probewright: allow single-fast-touch - rough location only)`. */
export interface Suppression {
  readonly rule: string;
  readonly reason: string | null;
  /** Of the comment. */
  readonly place: Place;
  /** The line whose findings it silences. */
  readonly coversLine: number;
}

/**
 * All suppressions of a program in order. One covers its own block; where comments are all that its line has, the next
 * line with anything else (its own where none follows).
 */
export function suppressions(source: Source): Suppression[] {
  const found: Suppression[] = [];
  for (const { directive, place } of directives(source)) {
    if (directive.kind !== 'allow') continue;
    const coversLine = coveredLine(source, place.line);
    found.push({ rule: directive.rule, reason: directive.reason, place, coversLine });
  }
  return found;
}

/** Every comment of ours in a program, also those that say nothing known. */
export function* directives(
  source: Source,
): Iterable<{ readonly directive: Directive; readonly place: Place }> {
  for (const { firstLine, fact } of directiveLines.in(source))
    for (const local of fact) {
      const line = firstLine + local;
      if (source.classOf(line) !== 2) continue;
      for (const item of source.block(line).items) {
        const directive = item.kind === 'comment' ? readDirective(item.text) : null;
        if (directive) yield { directive, place: { line, start: item.start, end: item.end } };
      }
    }
}

/** Has them at hand for `directives` and `suppressions`; yields where it may pause. */
export function directivesInPieces(source: Source): Generator<void, void> {
  return directiveLines.lookThrough(source);
}

/** Lines with a `probewright` in them: no plain line has one. */
const directiveLines = new ChunkFacts<readonly number[]>((chunk, lines) => {
  const found = lines.filter((line) => mayHoldDirective.test(chunk.line(line)));
  return found.length > 0 ? found : null;
});

function coveredLine(source: Source, line: number): number {
  if (!isOnlyComments(source.block(line))) return line;
  for (let next = line + 1; next < source.programEnd; next++) {
    const kind = source.classOf(next);
    if (kind === 1 || (kind === 2 && !isOnlyComments(source.block(next)))) return next;
  }
  return line;
}

function isOnlyComments(block: Block): boolean {
  return !block.lineNumber && !block.blockDelete && block.items.every((item) => item.kind === 'comment');
}
