import type { Dialect } from '../syntax/dialect.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { codesOfBlock } from './blockCodes.ts';

/** A block of the macro dialect that calls a program by its number. */
export interface MacroCall {
  readonly code: 'G65' | 'M98';
  /** As `Procedures.byName` has it; null where P is missing or computed. */
  readonly program: string | null;
  /** The words that carry arguments: none of an M98. */
  readonly words: readonly Word[];
}

export function macroCallOf(block: Block, dialect: Dialect): MacroCall | null {
  if (!dialect.macroFlow) return null;
  const codes = codesOfBlock(block);
  const code = codes.includes('G65') ? 'G65' : codes.includes('M98') ? 'M98' : null;
  if (code === null) return null;
  const words = block.items.filter((item): item is Word => item.kind === 'word');
  const program = words.find(({ letter }) => letter === 'P');
  return {
    code,
    program: program?.value.kind === 'number' ? String(program.value.value) : null,
    words: code === 'G65' ? words.filter(({ letter }) => !'GMPLNO'.includes(letter)) : [],
  };
}
