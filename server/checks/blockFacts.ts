import { codeName } from '../program/codes.ts';
import { literal } from '../syntax/literal.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, Word } from '../syntax/tree.ts';

/** A G or M word whose number stands in the text. */
export interface CodeWord {
  readonly word: Word;
  readonly letter: 'G' | 'M';
  readonly value: number;
  /** `G38.2`; null where no code can have that number. */
  readonly code: string | null;
}

/** The G and M words of a block that are codes: behind a macro call every letter is an argument. */
export function codesIn(block: Block): CodeWord[] {
  const codes: CodeWord[] = [];
  for (const item of block.items) {
    if (item.kind !== 'word' || (item.letter !== 'G' && item.letter !== 'M')) continue;
    const value = literal(item.value);
    if (value === null) continue;
    codes.push({ word: item, letter: item.letter, value, code: codeName(item.letter, value) });
    if (item.letter === 'G' && takesArguments(value)) break;
  }
  return codes;
}

export function wordsOf(block: Block): readonly Word[] {
  return block.items.filter((item) => item.kind === 'word');
}

export function hasCode(block: Block, names: readonly string[]): boolean {
  return codesIn(block).some(({ code }) => code !== null && names.includes(code));
}

/** Which form of G10 the block is, where its L is a plain number; null: no G10, or none for certain. */
export function formOfG10(block: Block): number | null {
  const form = wordsOf(block).find(({ letter }) => letter === 'L');
  return form && hasCode(block, ['G10']) ? literal(form.value) : null;
}

/** G65, G66 and the builders' own codes hand the letters behind them to a program. */
export function takesArguments(code: number): boolean {
  return (code >= 65 && code < 67) || code >= 100;
}

export function wholeLine(source: Source, line: number): Place {
  return { line, start: 0, end: source.text.line(line).length };
}

/** A sentence part for a place on another line. */
export function lineName(line: number): string {
  return `line ${line + 1}`;
}
