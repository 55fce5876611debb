import { proceduresOf } from '../analysis/procedures.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, Span } from '../syntax/tree.ts';
import { code, type Part, paragraph } from './richText.ts';

/** What stands before the words of a block, at a character: `/` or the N number. */
export function blockStartAt(
  block: Block,
  character: number,
): { span: Span; kind: 'number' | 'delete' } | null {
  const on = (span: Span | undefined): span is Span =>
    span !== undefined && span.start <= character && character < span.end;
  if (on(block.blockDelete)) return { span: block.blockDelete, kind: 'delete' };
  return on(block.lineNumber) ? { span: block.lineNumber, kind: 'number' } : null;
}

export function blockDeleteParts({ blockDelete }: Block): Part[] {
  const level = blockDelete?.level ?? null;
  const which = level === null ? 'the block-delete switch' : `block-delete switch ${level}`;
  return [
    paragraph(`${code(level === null ? '/' : `/${level}`)} — skipped while ${which} of the machine is on.`),
  ];
}

/** Jumps that a list has room for. */
const mostJumps = 8;

/** Flow blocks that are looked through for jumps. */
const mostFlows = 20_000;

/** An N number: a mere number, or where something jumps to. */
export function lineNumberParts(source: Source, line: number, { lineNumber }: Block): Part[] {
  const value = lineNumber?.value ?? null;
  if (value === null) return [paragraph(`${code('N')} — the number of the block is missing.`)];
  const about = paragraph(
    `${code(`N${value}`)} — number of the block. It does not set the order of execution.`,
  );
  const jumps = source.dialect.macroFlow ? jumpsTo(source, value, line) : [];
  if (jumps.length === 0) return [about];
  const shown = jumps.slice(0, mostJumps).map((at) => at + 1);
  const more = jumps.length > mostJumps ? `, and ${jumps.length - mostJumps} more` : '';
  return [about, paragraph(`Jumped to from line ${shown.join(', ')}${more}.`)];
}

/** Lines of the same program (`O…`) whose GOTO names the number. */
function jumpsTo(source: Source, value: number, line: number): number[] {
  const home = proceduresOf(source).all.find(({ ranges }) =>
    ranges.some(([from, to]) => from <= line && line < to),
  );
  const found: number[] = [];
  let looked = 0;
  for (const at of source.otherLines()) {
    if (looked > mostFlows) break;
    if (!/g\s*o\s*t\s*o/i.test(source.text.line(at))) continue;
    looked++;
    if (home && !home.ranges.some(([from, to]) => from <= at && at < to)) continue;
    const jumps = source
      .block(at)
      .items.some(
        (item) =>
          item.kind === 'flow' &&
          item.form === 'goto' &&
          item.target.kind === 'number' &&
          item.target.value === value,
      );
    if (jumps) found.push(at);
  }
  return found;
}
