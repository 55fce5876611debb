import { code } from './charCodes.ts';
import { actingWords } from './messages.ts';

/** Letters of a comment that are read to tell whether it acts: as many as the longest of the words has, and one more. */
const lettersRead = 12;

/**
 * Where a comment that nothing reads ends: behind its `)`, or at the line ending for `;`. -1 where something may read it:
 * it names a parameter, begins with a word that acts or much as our own name, or is none of the language (nested, not
 * closed). A line ending must stand somewhere behind it.
 */
export function quietCommentEnd(bytes: Uint8Array, from: number): number {
  const closing = bytes[from] === code.semicolon ? -1 : code.closeParenthesis;
  let at = from + 1;
  for (;;) {
    const unit = bytes[at] as number;
    if (unit === closing) break;
    if (unit < 0x20 && unit !== code.tab) {
      if (closing < 0 && (unit === code.lineFeed || unit === code.carriageReturn)) break;
      return -1;
    }
    if (unit === code.hash || (unit === code.openParenthesis && closing > 0)) return -1;
    at++;
  }
  if (acts(bytes, from + 1, at)) return -1;
  return closing < 0 ? at : at + 1;
}

/** Whether the first word does: one of the commands, or the start of `probewright` and its misspellings. */
function acts(bytes: Uint8Array, from: number, to: number): boolean {
  let at = from;
  while (at < to && (bytes[at] === code.space || bytes[at] === code.tab)) at++;
  const first = bytes[at] as number;
  // It may be one of the many blanks of Unicode.
  if (first > 0x7f) return true;
  if (!firstLetters[first]) return false;
  let word = '';
  for (; at < to && word.length < lettersRead; at++) {
    const letter = (bytes[at] as number) & ~0x20;
    if (letter < 0x41 || letter > 0x5a) break;
    word += String.fromCharCode(letter);
  }
  return word.startsWith('PROB') || actingWords.has(word);
}

const firstLetters = new Uint8Array(256);
for (const word of [...actingWords.keys(), 'PROB']) {
  firstLetters[word.charCodeAt(0)] = 1;
  firstLetters[word.charCodeAt(0) | 0x20] = 1;
}
