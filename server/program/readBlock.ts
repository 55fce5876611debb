import type { Block, Word } from '../syntax/tree.ts';
import { codeName } from './codes.ts';
import { takesEveryWord } from './codeWords.ts';
import { axisUsers, isCycle } from './effects.ts';
import { evaluate, type Scope } from './evaluate.ts';
import type { State } from './state.ts';
import { savedMode } from './systemParameters.ts';
import { isEmpty, isNumber, type Value } from './value.ts';

/** The words of a block with their values, as read before anything takes effect. */
export interface ReadBlock {
  readonly codes: readonly CodeWord[];
  /** Letters but G, M, N, O; a repeated letter keeps the last. */
  readonly words: ReadonlyMap<string, { readonly word: Word; readonly value: Value }>;
  /** A G or M word whose value the file does not show. */
  readonly variableCode: Word | null;
  /** The canned cycle that a code of the block starts. */
  readonly cycle: string | null;
  /** A word as it is written. */
  textOf(word: Word): string;
}

export interface CodeWord {
  readonly code: string;
  readonly word: Word;
}

export function readBlock(block: Block, scope: Scope): ReadBlock {
  const codes: CodeWord[] = [];
  const words = new Map<string, { word: Word; value: Value }>();
  let variableCode: Word | null = null;
  for (const item of block.items) {
    if (item.kind !== 'word' || item.letter === 'O' || item.letter === 'N') continue;
    const value = evaluate(item.value, scope);
    // A word whose value is empty counts as not written (macro family, common practice).
    if (isEmpty(value)) continue;
    if (item.letter !== 'G' && item.letter !== 'M') {
      words.set(item.letter, { word: item, value });
    } else if (isNumber(value)) {
      const code = codeName(item.letter, value);
      if (code !== null) codes.push({ code, word: item });
      // What follows are arguments of the macro that is called: nothing of it takes effect here.
      if (code !== null && takesEveryWord(code, scope.dialect)) break;
    } else if (!restoreSaved(value, scope.state)) {
      variableCode = item;
    }
  }
  const cycle = codes.findLast(({ code }) => isCycle(code, scope.dialect))?.code ?? null;
  return { codes, words, variableCode, cycle, textOf: ({ start, end }) => block.text.slice(start, end) };
}

/** `G#4` where #4 holds what #4003 said: the mode comes back as it was. */
function restoreSaved(value: Value, state: State): boolean {
  const saved = savedMode(value);
  if (saved) state.modes[saved.group] = saved.mask;
  return saved !== null;
}

/** Axis words belong to a code of group 0 in this block, not to a motion (NISTIR 6556, 3.4). */
export function axesUsedBy(read: ReadBlock): string | null {
  return read.codes.find((c) => axisUsers.has(c.code) && c.code !== 'G53')?.code ?? null;
}
