import type { Source } from '../../server/syntax/source.ts';
import type { Block, Flow, Word } from '../../server/syntax/tree.ts';
import { conditionsOf, within } from './expressionParts.ts';

/** A program read for mutation: its lines as text and as blocks. */
export interface Lines {
  readonly texts: readonly string[];
  readonly blocks: readonly Block[];
}

export function linesOf(source: Source): Lines {
  const numbers = Array.from({ length: source.lineCount }, (_, line) => line);
  return {
    texts: numbers.map((line) => source.text.line(line)),
    blocks: numbers.map((line) => source.block(line)),
  };
}

export function wordsOf(block: Block): Word[] {
  return block.items.filter((item): item is Word => item.kind === 'word');
}

/** `G38.2`, `M5`: the literal codes of a block. */
export function codesOf(block: Block): string[] {
  return wordsOf(block).flatMap(({ letter, value }) =>
    (letter === 'G' || letter === 'M') && value.kind === 'number' ? [`${letter}${value.value}`] : [],
  );
}

export function isTouch(block: Block): boolean {
  return codesOf(block).some((code) => /^G(38\.[2345]|31)$/.test(code));
}

/** A plain move: axis words, and no code that makes them anything else. */
export function isPlainMove(block: Block): boolean {
  const moves = wordsOf(block).some(({ letter }) => /^[XYZ]$/.test(letter));
  return moves && !isTouch(block) && !codesOf(block).some((code) => /^G(4|10|43|52|65|92)/.test(code));
}

/** The line with which an `if` of this line ends; the line itself where it is all of it; null: it is none, or has an else. */
export function endOfIf({ blocks }: Lines, line: number): number | null {
  const block = blocks[line];
  if (!block) return null;
  if (flowOf(block, 'if-then') || flowOf(block, 'goto')?.condition) return line;
  const flow = flowOf(block, 'o-word');
  if (flow?.keyword !== 'if') return null;
  for (let at = line + 1; at < blocks.length; at++) {
    const other = flowOf(blocks[at] ?? block, 'o-word');
    if (other && other.label === flow.label) return other.keyword === 'endif' ? at : null;
  }
  return null;
}

/** The block's flow where it is of this form. */
export function flowOf<Form extends Flow['form']>(
  block: Block,
  form: Form,
): Extract<Flow, { form: Form }> | null {
  const found = block.items.find((item): item is Flow => item.kind === 'flow');
  return found?.form === form ? (found as Extract<Flow, { form: Form }>) : null;
}

/** A test of what a touch left behind: its success, where it latched, where the axes stand. */
export function looksAtTouch(block: Block): boolean {
  const parts = conditionsOf(block).flatMap((condition) => [...within(condition)]);
  return parts.some(
    (part) =>
      part.kind === 'parameter' &&
      'number' in part.index &&
      /^(50[0-7]\d|100\d)$/.test(`${part.index.number}`),
  );
}
