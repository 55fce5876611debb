import { takesEveryWord } from '../program/codeWords.ts';
import type { Dialect } from '../syntax/dialect.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { codesOfBlock } from './blockCodes.ts';

/** A block of the macro dialect that calls a program by its number. */
export interface MacroCall {
  readonly code: 'G65' | 'G66' | 'G66.1' | 'M96' | 'M98';
  /** As `Procedures.byName` has it; null where P is missing or computed. */
  readonly program: string | null;
  /** Its words are arguments: not those of M96 and M98. */
  readonly handsOn: boolean;
  /** The words that carry arguments. */
  readonly words: readonly Word[];
}

const callCodes = ['G65', 'G66', 'G66.1', 'M96', 'M98'] as const;

export function macroCallOf(block: Block, dialect: Dialect): MacroCall | null {
  if (!dialect.macroFlow) return null;
  const codes = codesOfBlock(block);
  const code = callCodes.find((each) => codes.includes(each));
  if (!code) return null;
  const handsOn = takesEveryWord(code, dialect.name);
  const words = block.items.filter((item): item is Word => item.kind === 'word');
  const program = words.find(({ letter }) => letter === 'P');
  return {
    code,
    program: program?.value.kind === 'number' ? String(program.value.value) : null,
    handsOn,
    words: handsOn ? words.filter(({ letter }) => !'GMPLNO'.includes(letter)) : [],
  };
}
