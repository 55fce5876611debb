import type { DialectName } from '../syntax/dialect.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { codeName } from './codes.ts';
import { takesEveryWord, wordsOfCode } from './codeWords.ts';
import { exponents } from './exponents.ts';

/** Letters that mean nothing without a code; the report's reference source calls each of them an error when alone. */
const dependents = ['D', 'E', 'H', 'I', 'J', 'K', 'L', 'P', 'Q', 'R'];

/**
 * Words of an rs274ngc block that none of its codes takes, nor the motion in force (`motion`: `G2`, `G81` …; null: not
 * known, nothing is said). The macro family ignores such words.
 */
export function unusedWords(block: Block, dialect: DialectName, motion: string | null): readonly Word[] {
  if (dialect !== 'rs274ngc' || motion === null) return [];
  const words = block.items.filter((item) => item.kind === 'word');
  const codes: string[] = [motion];
  for (const word of words) {
    if (word.letter !== 'G' && word.letter !== 'M') continue;
    const code = word.value.kind === 'number' ? codeName(word.letter, word.value.value) : null;
    // A code that nothing is said of may take anything.
    if (code === null || takesEveryWord(code, dialect)) return [];
    codes.push(code);
  }
  const taking = codes.map((code) => wordsOfCode(code, dialect));
  if (codes.some((code, i) => taking[i] === null && openCode.test(code))) return [];
  const taken = new Set(taking.flatMap((t) => (t ? [...t.takes, ...t.needs.flat()] : [])));
  // An arc by its radius has no centre words: mixed formats are an error of the reference source (from memory).
  const byRadius =
    codes.some((code) => code === 'G2' || code === 'G3') && words.some(({ letter }) => letter === 'R');
  if (byRadius && codes.every((code) => !takesCentre.test(code)))
    for (const letter of 'IJK') taken.delete(letter);
  const glued = exponents(block, dialect);
  return words.filter(
    (word) => dependents.includes(word.letter) && !taken.has(word.letter) && !glued.includes(word),
  );
}

/** Besides arcs: codes that take I, J or K. */
const takesCentre = /^G(10|33|43\.1|76|87)$/;

/** User codes, lathe cycles, splines: their words are their own. */
const openCode = /^(M1\d\d|G(7[0-2]|5|6|33)(\.\d)?)$/;
