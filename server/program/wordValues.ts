import type { DialectName } from '../syntax/dialect.ts';
import { literal } from '../syntax/literal.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { codeName } from './codes.ts';
import { takesEveryWord } from './codeWords.ts';
import { dataKindOf } from './dataKinds.ts';

/** Which numbers a word may have. */
interface Range {
  readonly has: (value: number) => boolean;
  /** In plain words. */
  readonly said: string;
}

/** A word with a number that the dialect does not take. */
export interface BadValue {
  readonly word: Word;
  /** The code of the block that says so; null where every block does. */
  readonly code: string | null;
  /** What it takes: "a whole number from 0 up". */
  readonly said: string;
}

type Row = readonly [codes: string, letter: string, range: Range];

/** Close to a whole number: within 0.0001 (NISTIR 6556, 3.3.2.1), with room for the rounding of the difference. */
const isWhole = (value: number) => Math.abs(value - Math.round(value)) <= 1e-4 + 1e-9;
const from = (least: number, most = Number.POSITIVE_INFINITY) => ({
  has: (value: number) => isWhole(value) && Math.round(value) >= least && Math.round(value) <= most,
  said: `a whole number from ${least} ${Number.isFinite(most) ? `to ${most}` : 'up'}`,
});
const notNegative: Range = { has: (value) => value >= 0, said: '0 or more' };
const step: Range = { has: (value) => value > 0, said: 'more than 0' };
const radius: Range = { has: (value) => value !== 0, said: 'any radius but 0' };

/** By sections of NISTIR 6556, which calls each of them an error (F: its reference source alone, from memory). */
const rs274ngc: readonly Row[] = [
  ['', 'F', notNegative],
  // 3.7.2, 3.7.3.
  ['', 'S', notNegative],
  ['', 'T', from(0)],
  // 3.5.3.1: such an arc does not end where it starts.
  ['G2 G3', 'R', radius],
  // 3.5.4.
  ['G4', 'P', notNegative],
  // 3.5.5 has 1 to 9; 0, the active one, and the L numbers but 2 are common practice.
  ['G10-L2 G10-L20', 'P', from(0, 9)],
  ['G10-L1 G10-L10 G10-L11', 'P', from(0)],
  // 3.5.10, 3.5.11.
  ['G41 G42', 'D', from(0)],
  ['G43', 'H', from(0)],
  // 3.5.16, 3.5.16.3; G73 is common practice.
  ['G73 G81 G82 G83 G84 G85 G86 G87 G88 G89', 'L', from(1)],
  ['G82 G86 G88 G89', 'P', notNegative],
  ['G73 G83', 'Q', step],
];

/** Common practice, no source. */
const macro: readonly Row[] = [
  ['', 'F', notNegative],
  ['G4', 'P', notNegative],
];

const tables: Readonly<Record<DialectName, readonly Row[]>> = { rs274ngc, macro };

/**
 * Words of a block with a number that the dialect does not take. Nothing is said of computed values, nor of a block with
 * a computed code, or with one whose words are arguments.
 */
export function badValues(block: Block, dialect: DialectName): readonly BadValue[] {
  const words = block.items.filter((item) => item.kind === 'word');
  const codes = codesOf(words, dialect);
  if (codes === null) return [];
  const kind = dataKindOf(block);
  if (kind) codes.push(`G10-L${kind.value}`);
  return words.flatMap((word) => {
    const value = literal(word.value);
    if (value === null) return [];
    const own = tables[dialect].filter(([of, letter]) => letter === word.letter && isOf(of, codes));
    const broken = own.find(([, , range]) => !range.has(value));
    if (!broken) return [];
    const [of, , { said }] = broken;
    return [{ word, said, code: codes.find((code) => of.split(' ').includes(code)) ?? null }];
  });
}

function isOf(of: string, codes: readonly string[]): boolean {
  return of === '' || of.split(' ').some((code) => codes.includes(code));
}

function codesOf(words: readonly Word[], dialect: DialectName): string[] | null {
  const codes: string[] = [];
  for (const { letter, value } of words) {
    if (letter !== 'G' && letter !== 'M') continue;
    const name = value.kind === 'number' ? codeName(letter, value.value) : null;
    if (name === null || takesEveryWord(name, dialect) || /^G[1-3]\d\d$/.test(name)) return null;
    codes.push(name);
  }
  return codes;
}
