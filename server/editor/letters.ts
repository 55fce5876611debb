import { takesEveryWord } from '../program/codeWords.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { literal } from '../syntax/literal.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { codesOfBlock } from './blockCodes.ts';
import { type LetterRow, specialLetters } from './specialLetters.ts';

export interface LetterMeaning {
  readonly title: string;
  /** In the units in force. */
  readonly isLength: boolean;
}

/** What the letter of a word means in its block; null where nothing can be said. NISTIR 6556, table 3 and section 3.5. */
export function letterMeaning({ letter }: Word, block: Block, dialect: DialectName): LetterMeaning | null {
  return specialMeaning(letter, block, dialect) ?? general[letter] ?? null;
}

/** What a code of the block gives the letter to mean; null where none does. */
export function specialMeaning(letter: string, block: Block, dialect: DialectName): LetterMeaning | null {
  const codes = codesOfBlock(block);
  const row = specialLetters.find(
    (each) =>
      each.letters.includes(letter) && each.codes.some((code) => codes.includes(code)) && isIn(each, dialect),
  );
  return row ? { title: row.title, isLength: row.isLength === true } : null;
}

/** The words whose meaning that code gives them, in the order of the table. */
export function lettersOfCode(code: string, dialect: DialectName): readonly LetterRow[] {
  return specialLetters.filter((row) => row.codes.includes(code) && isIn(row, dialect));
}

/** Whether a word stands behind a macro call and is handed to the program called, an M word too. */
export function isArgument(word: Word, block: Block, dialect: DialectName): boolean {
  return !'GLPNO'.includes(word.letter) && callBefore(word, block, dialect);
}

function callBefore({ start }: Word, block: Block, dialect: DialectName): boolean {
  return block.items.some(
    (item) =>
      item.kind === 'word' &&
      item.letter === 'G' &&
      item.start < start &&
      takesEveryWord(`G${literal(item.value)}`, dialect),
  );
}

const length = (title: string): LetterMeaning => ({ title, isLength: true });
const plain = (title: string): LetterMeaning => ({ title, isLength: false });

const general: Readonly<Record<string, LetterMeaning>> = {
  A: plain('rotary axis about X, degrees'),
  B: plain('rotary axis about Y, degrees'),
  C: plain('rotary axis about Z, degrees'),
  D: plain('number of a cutter radius'),
  E: plain('what it means hangs on the code of the block'),
  F: plain('feed'),
  H: plain('number of a tool length'),
  I: length('X part of an arc’s centre'),
  J: length('Y part of an arc’s centre'),
  K: length('Z part of an arc’s centre'),
  L: plain('a count or a kind: what it means hangs on the code of the block'),
  N: plain('number of the block'),
  O: plain('number of the program'),
  P: plain('a number or a time: what it means hangs on the code of the block'),
  Q: plain('a step or an angle: what it means hangs on the code of the block'),
  R: plain('a radius or a height: what it means hangs on the code of the block'),
  S: plain('spindle speed, turns per minute'),
  T: plain('tool number'),
  U: length('axis parallel to X'),
  V: length('axis parallel to Y'),
  W: length('axis parallel to Z'),
  '@': length('polar position: distance from the work origin'),
  '^': plain('polar position: angle from the X axis, degrees'),
  ',A': plain('angle of the move from the first axis of the plane, degrees'),
  ',C': length('chamfer at the end of the move'),
  ',R': length('rounding at the end of the move'),
};

function isIn(row: LetterRow, dialect: DialectName): boolean {
  return row.dialect === undefined || row.dialect === dialect;
}
