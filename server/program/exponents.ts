import type { DialectName } from '../syntax/dialect.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { codeName } from './codes.ts';
import { wordsOfCode } from './codeWords.ts';

/**
 * E words that are meant as exponents (`X1e5`), which RS-274 does not have (NISTIR 6556, 3.3.2.1): glued to a number, in
 * a block of rs274ngc whose codes take no E.
 */
export function exponents(block: Block, dialect: DialectName): readonly Word[] {
  if (dialect !== 'rs274ngc') return [];
  const words = block.items.filter((item) => item.kind === 'word');
  const found = words.filter((word, i) => isGlued(block.text, words[i - 1], word));
  return found.length > 0 && words.some((word) => mayTakeE(word, dialect)) ? [] : found;
}

function isGlued(text: string, before: Word | undefined, { letter, start, value }: Word): boolean {
  if (letter !== 'E' || value.kind === 'bad' || before?.end !== start || before.letter === 'G') return false;
  return before.value.kind === 'number' && /[\d.]/.test(text.charAt(start - 1));
}

function mayTakeE({ letter, value }: Word, dialect: DialectName): boolean {
  if (letter !== 'G' && letter !== 'M') return false;
  const code = value.kind === 'number' ? codeName(letter, value.value) : null;
  if (code === null || /^M1\d\d$/.test(code)) return true;
  const words = wordsOfCode(code, dialect);
  return words !== null && [...words.takes, ...words.needs.flat()].includes('E');
}
