import type { Dialect } from '../syntax/dialect.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Block, Item, Span } from '../syntax/tree.ts';
import { isSameBlock } from './sameBlock.ts';

/**
 * A line as the formatter writes it: one blank between words, none between a letter and its number, none at the end.
 * Comments, what stands before a comment, values that are computed, letter case and the digits of numbers stay as they
 * are. A line with a fault, a `%` line, and one that would read differently or get too long stay whole.
 * @param indentation what the line begins with; null: what it has
 */
export function formatLine(line: string, indentation: string | null, dialect: Dialect): string {
  if (line === '') return line;
  if (/^\s*$/.test(line)) return line.startsWith('\ufeff') ? line : '';
  if (line.includes('\x1a') || line.startsWith('\ufeff')) return line;
  const block = parseBlock(line, dialect);
  if (block.faults.length > 0 || block.items.some(isLeftAlone)) return line;
  const written = (keepsIndentation(block) ? '' : (indentation ?? leadingBlanks(line))) + wordsOf(block);
  if (written === line) return line;
  if (dialect.maximumLineLength !== null && written.length > dialect.maximumLineLength) return line;
  return isSameBlock(block, parseBlock(written, dialect)) ? written : line;
}

function isLeftAlone(item: Item): boolean {
  return item.kind === 'percent' || item.kind === 'stray';
}

/** N numbers and `/` stand in columns that people look down along: where they are is left to the person. */
function keepsIndentation(block: Block): boolean {
  return block.lineNumber !== undefined || block.blockDelete !== undefined;
}

export function leadingBlanks(line: string): string {
  return /^[ \t]*/.exec(line)?.[0] ?? '';
}

function wordsOf(block: Block): string {
  const { text } = block;
  const spans: Piece[] = [...leading(block), ...block.items].sort((a, b) => a.start - b.start);
  let written = '';
  let end = 0;
  for (const [index, piece] of spans.entries()) {
    const gap = text.slice(end, piece.start);
    if (index === 0) written += block.lineNumber || block.blockDelete ? gap : '';
    else written += keepsGap(piece) || isComment(spans[index - 1]) ? gap : ' ';
    written += pieceText(piece, text);
    end = piece.end;
  }
  return written.replace(/[ \t]+$/, '');
}

type Piece = Item | (Span & { readonly kind: 'start' });

function leading({ lineNumber, blockDelete }: Block): Piece[] {
  return [lineNumber, blockDelete].flatMap((span) => (span ? [{ ...span, kind: 'start' as const }] : []));
}

/** Comments may stand in a column of their own; `,R2` belongs to the word before it. */
function keepsGap(piece: Piece): boolean {
  return isComment(piece) || (piece.kind === 'word' && piece.letter.startsWith(','));
}

function isComment(piece: Piece | undefined): boolean {
  return piece?.kind === 'comment';
}

/** `X 10` is written `X10`; anything with more in it than a literal number stays as it is. */
function pieceText(piece: Piece, text: string): string {
  const written = text.slice(piece.start, piece.end);
  if (piece.kind !== 'word' || piece.value.kind !== 'number') return written;
  return text.slice(piece.value.start, piece.value.end).startsWith('[')
    ? written
    : written.replace(/[ \t]+/g, '');
}
