import type { Source } from '../syntax/source.ts';
import type { Block, Span } from '../syntax/tree.ts';
import { wordsOf } from './blockFacts.ts';
import type { Edit } from './rule.ts';

/** New blocks after this one, with its indentation, its block delete and the file's line ending. */
export function blocksAfter(source: Source, line: number, blocks: readonly string[]): Edit {
  const at = source.text.line(line).length;
  const text = blocks.map((block) => endingOf(source, line) + leadOf(source, line) + block).join('');
  return { line, start: at, endLine: line, end: at, text };
}

/** New blocks before this one. */
export function blocksBefore(source: Source, line: number, blocks: readonly string[]): Edit {
  const at = source.text.line(line).startsWith('\uFEFF') ? 1 : 0;
  const text = blocks.map((block) => leadOf(source, line) + block + endingOf(source, line)).join('');
  return { line, start: at, endLine: line, end: at, text };
}

/** Replaces the value of the block's word with this letter, or puts the word behind the block's last one. */
export function setWord(block: Block, line: number, word: string): Edit {
  const old = wordsOf(block).find(({ letter }) => letter === word[0]);
  if (old) return replaced(line, old, word);
  const last = wordsOf(block).at(-1);
  const at = last?.end ?? block.text.length;
  return { line, start: at, endLine: line, end: at, text: ` ${word}` };
}

export function replaced(line: number, span: Span, text: string): Edit {
  return { line, start: span.start, endLine: line, end: span.end, text };
}

/** Takes a part of a block out, with the blanks before it. */
export function removed(block: Block, line: number, span: Span): Edit {
  const before = block.text.slice(0, span.start);
  const start = before.trimEnd().length;
  return { line, start: start === 0 ? span.start : start, endLine: line, end: span.end, text: '' };
}

/** Takes a whole line out, with its ending. */
export function lineRemoved(source: Source, line: number): Edit {
  const end = source.text.line(line).length;
  if (line + 1 < source.lineCount) return { line, start: 0, endLine: line + 1, end: 0, text: '' };
  if (line === 0) return { line, start: 0, endLine: line, end, text: '' };
  return { line: line - 1, start: source.text.line(line - 1).length, endLine: line, end, text: '' };
}

function endingOf(source: Source, line: number): string {
  return source.text.lineEnding(line) || source.text.lineEnding(Math.max(0, line - 1)) || '\n';
}

/** A block that the operator can switch off takes what belongs to it along. */
function leadOf(source: Source, line: number): string {
  const text = source.text.line(line).replace(/^\uFEFF/, '');
  const indent = /^[ \t]*/.exec(text)?.[0] ?? '';
  const { blockDelete } = source.block(line);
  return blockDelete ? `${indent}/${blockDelete.level ?? ''}` : indent;
}
