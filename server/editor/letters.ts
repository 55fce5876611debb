import type { DialectName } from '../syntax/dialect.ts';

/** What a letter means in a block that has these codes; null where nothing can be said. NISTIR 6556, table 3 and section 3.5. */
export function letterMeaning(letter: string, codes: readonly string[], dialect: DialectName): string | null {
  const special = specials.find(
    (row) =>
      row.letters.includes(letter) && row.codes.some((name) => codes.includes(name)) && isIn(row, dialect),
  );
  return special?.title ?? general[letter] ?? null;
}

/** The words whose meaning that code gives them, in the order of the table. */
export function lettersOfCode(
  code: string,
  dialect: DialectName,
): readonly { readonly letters: string; readonly title: string }[] {
  return specials.filter((row) => row.codes.includes(code) && isIn(row, dialect));
}

interface Special {
  readonly letters: string;
  readonly codes: readonly string[];
  readonly title: string;
  readonly dialect?: DialectName;
}

/** Calls of the macro family that hand their words on. */
const withArguments = ['G65', 'G66', 'G66.1'];

const specials: readonly Special[] = [
  { letters: 'P', codes: ['G4'], title: 'dwell time, seconds', dialect: 'rs274ngc' },
  // Common practice, no source.
  {
    letters: 'PX',
    codes: ['G4'],
    title: 'dwell time: seconds with a decimal point, milliseconds without one',
    dialect: 'macro',
  },
  { letters: 'P', codes: ['G10'], title: 'which work offset (1 = G54) or tool is written' },
  { letters: 'L', codes: ['G10'], title: 'what G10 writes: 2 a work offset, 20 one by the present position' },
  { letters: 'XYZABC', codes: ['G10', 'G92', 'G52'], title: 'value of the offset along this axis' },
  { letters: 'H', codes: ['G43', 'G44'], title: 'number of the tool length' },
  { letters: 'D', codes: ['G41', 'G42'], title: 'number of the cutter radius' },
  {
    letters: 'P',
    codes: ['M98', 'M96', ...withArguments],
    title: 'number of the program called',
    dialect: 'macro',
  },
  { letters: 'L', codes: ['M98', ...withArguments], title: 'how many times it is called', dialect: 'macro' },
  { letters: 'P', codes: ['M99'], title: 'block that the caller goes on with', dialect: 'macro' },
  { letters: 'ABCDEFHIJKMQRSTUVWXYZ', codes: withArguments, title: 'argument of the call', dialect: 'macro' },
  { letters: 'IJK', codes: ['G2', 'G3'], title: 'centre of the arc, from its start' },
  { letters: 'R', codes: ['G2', 'G3'], title: 'radius of the arc' },
  {
    letters: 'R',
    codes: ['G81', 'G82', 'G83', 'G84', 'G85', 'G86', 'G88', 'G89'],
    title: 'clear height of the cycle',
  },
  { letters: 'Q', codes: ['G73', 'G83'], title: 'depth of each peck' },
];

const general: Readonly<Record<string, string>> = {
  A: 'rotary axis about X, degrees',
  B: 'rotary axis about Y, degrees',
  C: 'rotary axis about Z, degrees',
  D: 'number of a cutter radius',
  E: 'what it means hangs on the code of the block',
  F: 'feed',
  H: 'number of a tool length',
  I: 'X part of an arc’s centre',
  J: 'Y part of an arc’s centre',
  K: 'Z part of an arc’s centre',
  L: 'a count or a kind: what it means hangs on the code of the block',
  N: 'number of the block',
  O: 'number of the program',
  P: 'a number or a time: what it means hangs on the code of the block',
  Q: 'a step or an angle: what it means hangs on the code of the block',
  R: 'a radius or a height: what it means hangs on the code of the block',
  S: 'spindle speed, turns per minute',
  T: 'tool number',
  U: 'axis parallel to X',
  V: 'axis parallel to Y',
  W: 'axis parallel to Z',
};

function isIn(row: Special, dialect: DialectName): boolean {
  return row.dialect === undefined || row.dialect === dialect;
}
