import type { Word } from '../syntax/tree.ts';

/** Letter → number of the local that carries it into a called macro (common practice, no source). */
export const argumentNumbers: Readonly<Record<string, number>> = {
  ...{ A: 1, B: 2, C: 3, D: 7, E: 8, F: 9, H: 11, I: 4, J: 5, K: 6, M: 13, Q: 17, R: 18 },
  ...{ S: 19, T: 20, U: 21, V: 22, W: 23, X: 24, Y: 25, Z: 26 },
};

const mostSets = 10;

/**
 * Number of the local → the word that fills it, for the words of a G65 or G66 block. Where I, J or K stands more than once,
 * they come in sets: I J K are #4 to #6, the second I J K #7 to #9, and so on (common practice, no source). Of two words
 * for one number the later counts.
 */
export function macroArguments(words: readonly Word[]): ReadonlyMap<number, Word> {
  const inSets = ['I', 'J', 'K'].some((letter) => words.filter((w) => w.letter === letter).length > 1);
  const found = new Map<number, Word>();
  let set = 0;
  let last = -1;
  for (const word of words) {
    const place = 'IJK'.indexOf(word.letter);
    if (inSets && place >= 0) {
      if (place <= last) set++;
      last = place;
      if (set < mostSets) found.set(4 + 3 * set + place, word);
      continue;
    }
    const number = argumentNumbers[word.letter];
    if (number !== undefined) found.set(number, word);
  }
  return found;
}
