import type { DialectName } from '../syntax/dialect.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { codeName, codeOf } from './codes.ts';
import { takesEveryWord, wordsOfCode } from './codeWords.ts';
import { dataKindOf } from './dataKinds.ts';
import { isCycle } from './effects.ts';
import { axisLetters, polarLetters } from './state.ts';

/** What must be known of the state before a block, to tell what it lacks; null where it is not known. */
export interface BeforeBlock {
  readonly dialect: DialectName;
  /** `G1`, `G2` …; of a canned cycle its own code. */
  readonly motion: string | null;
  readonly plane: string | null;
  readonly feedMode: string | null;
}

/** A code without a word that it needs. */
export interface MissingWord {
  readonly code: string;
  /** The G or M word; null where the code is in force from an earlier block. */
  readonly word: Word | null;
  /** One of these letters is missing. */
  readonly letters: readonly string[];
}

/**
 * What the codes of a block lack, by the dialect's table; arcs and canned cycles by what holds before the block. A G or M
 * word with a computed value, or a macro call, makes the block say nothing.
 */
export function missingWords(block: Block, before: BeforeBlock): readonly MissingWord[] {
  const words = block.items.filter((item) => item.kind === 'word');
  const codes = codesOf(words, before.dialect);
  if (codes === null) return [];
  const has = (letter: string) => words.some((word) => word.letter === letter);
  const missing: MissingWord[] = [];
  for (const { code, word } of codes) {
    if (takesEveryWord(code, before.dialect)) return has('P') ? [] : [{ code, word, letters: ['P'] }];
    for (const letters of neededBy(code, before, block))
      if (!letters.some(has)) missing.push({ code, word, letters });
  }
  return [...missing, ...motionLacks(codes, has, before)];
}

interface CodeInBlock {
  readonly code: string;
  readonly word: Word;
}

function codesOf(words: readonly Word[], dialect: DialectName): readonly CodeInBlock[] | null {
  const codes: CodeInBlock[] = [];
  for (const word of words) {
    if (word.letter !== 'G' && word.letter !== 'M') continue;
    if (word.value.kind !== 'number') return null;
    const code = codeName(word.letter, word.value.value);
    if (code !== null && codeOf(word.letter, word.value.value, dialect)) codes.push({ code, word });
    if (code !== null && takesEveryWord(code, dialect)) break;
  }
  return codes;
}

/** A canned cycle that is in force already keeps its words (NISTIR 6556, 3.5.16). */
function neededBy(code: string, before: BeforeBlock, block: Block): readonly (readonly string[])[] {
  if (code === 'G10' && before.dialect === 'rs274ngc') return neededByKind(dataKindOf(block)?.value ?? null);
  const own = wordsOfCode(code, before.dialect)?.needs ?? [];
  if (!isCycle(code, before.dialect)) return own;
  if (before.motion === null || before.motion === code) return [];
  const goesOn = isCycle(before.motion, before.dialect);
  if (goesOn && before.dialect === 'macro') return [];
  return [...(goesOn ? [] : [['R']]), ...normalOf(before.plane), ...own];
}

/** G10 (3.5.5); L0 reads the tool table again, and L20 without an axis writes nothing (common practice, no source). */
function neededByKind(kind: number | null): readonly (readonly string[])[] {
  if (kind === 0) return [];
  return kind === 20 ? [['P'], axisLetters] : [['L'], ['P']];
}

function normalOf(plane: string | null): readonly (readonly string[])[] {
  const letter = plane === null ? undefined : { G17: 'Z', G18: 'Y', G19: 'X' }[plane];
  return letter === undefined ? [] : [[letter]];
}

const axisWords = [...axisLetters, ...polarLetters];

const centres: Readonly<Record<string, readonly string[]>> = {
  G17: ['I', 'J'],
  G18: ['I', 'K'],
  G19: ['J', 'K'],
};

/** An arc without centre or radius (3.5.3); a feed move under G93 without F (3.5.19). */
function motionLacks(
  codes: readonly CodeInBlock[],
  has: (letter: string) => boolean,
  before: BeforeBlock,
): readonly MissingWord[] {
  const own = codes.find(({ code }) => /^G[0123]$/.test(code)) ?? null;
  const motion = own?.code ?? before.motion;
  const endless = arcWithoutEnd(own, codes, has, before);
  if (endless) return [endless];
  const moves =
    axisWords.some(has) && !codes.some(({ code }) => takesAxes.has(code) || isCycle(code, before.dialect));
  if (!moves || motion === null) return [];
  const missing: MissingWord[] = [];
  const word = own?.word ?? null;
  const plane = codes.find(({ code }) => code in centres)?.code ?? before.plane;
  if (motion === 'G2' || motion === 'G3') {
    const letters = [...(plane === null ? ['I', 'J', 'K'] : (centres[plane] ?? ['I', 'J', 'K'])), 'R'];
    if (!letters.some(has)) missing.push({ code: motion, word, letters });
  }
  const feedMode = codes.find(({ code }) => /^G9[345]$/.test(code))?.code ?? before.feedMode;
  if (feedMode === 'G93' && /^G[123]$/.test(motion) && !has('F'))
    missing.push({ code: motion, word, letters: ['F'] });
  return missing;
}

/** A radius alone makes no arc: one that ends where it starts is an error in radius format (3.5.3.1). */
function arcWithoutEnd(
  own: CodeInBlock | null,
  codes: readonly CodeInBlock[],
  has: (letter: string) => boolean,
  before: BeforeBlock,
): MissingWord | null {
  if (before.dialect !== 'rs274ngc' || !own || !/^G[23]$/.test(own.code) || !has('R')) return null;
  const plane = codes.find(({ code }) => code in centres)?.code ?? before.plane;
  const letters = plane === null ? ['X', 'Y', 'Z'] : (arcEnds[plane] ?? ['X', 'Y', 'Z']);
  return [...letters, ...polarLetters].some(has) ? null : { code: own.code, word: own.word, letters };
}

const arcEnds: Readonly<Record<string, readonly string[]>> = {
  G17: ['X', 'Y'],
  G18: ['X', 'Z'],
  G19: ['Y', 'Z'],
};

/** Codes that use the axis words of their block, or make them another motion. */
const takesAxes = new Set(
  'G4 G10 G28 G30 G28.1 G30.1 G52 G92 G43.1 G43.2 G38.2 G38.3 G38.4 G38.5 G31 G68 G51 G51.1 G50 G16 G27 G29 G37'.split(
    ' ',
  ),
);
