import type { Dialect, DialectName } from './dialect.ts';

/** NISTIR 6556 3.3.2.3 has three groups, AND OR XOR among + and -, and no comparisons. */
const standardLevels = {
  '**': 5,
  '*': 4,
  '/': 4,
  MOD: 4,
  '+': 3,
  '-': 3,
  AND: 3,
  OR: 3,
  XOR: 3,
  EQ: 2,
  NE: 2,
  GT: 2,
  GE: 2,
  LT: 2,
  LE: 2,
} as const;

/**
 * The words of RS274/NGC as NISTIR 6556 has them, with what the trade at large added (common practice, no source):
 * E, U, V and W words, `@` and `^` for a polar position, O-word flow, named parameters, comparisons, `;` comments, a sign
 * before `#` and `[`.
 */
const rs274ngc: Dialect = {
  name: 'rs274ngc',
  title: 'RS274/NGC with O-words',
  letters: 'ABCDEFGHIJKLMPQRSTUVWXYZ@^',
  precedence: standardLevels,
  // Common practice: beside a comparison the logical operators bind last, so that [#1 EQ 0 AND #2 GT 1] means what it says.
  precedenceBesideComparison: { ...standardLevels, AND: 1, OR: 1, XOR: 1 },
  functions: [
    'ABS',
    'ACOS',
    'ASIN',
    'ATAN',
    'COS',
    'EXP',
    'FIX',
    'FUP',
    'LN',
    'ROUND',
    'SIN',
    'SQRT',
    'TAN',
    'EXISTS',
  ],
  namedParameters: true,
  oWords: true,
  macroFlow: false,
  openExpressions: false,
  semicolonComments: true,
  nestedCommentFault: true,
  commaLetters: '',
  lineNumberDigits: 5,
  blockDeleteAnywhere: false,
  leastParameter: 1,
  repeatedWords: false,
  maximumLineLength: 256,
};

/** Common practice of the macro family: functions first, then * / AND MOD, then + - OR XOR, then comparisons. */
const macroLevels = { ...standardLevels, '**': 0, AND: 4 } as const;

/** The macro family (common practice, no single source). */
const macro: Dialect = {
  name: 'macro',
  title: 'RS-274 with parametric macros',
  // As punched tapes in ISO code had it, `:` may stand for O.
  letters: 'ABCDEFGHIJKLMNOPQRSTUVWXYZ:',
  precedence: macroLevels,
  precedenceBesideComparison: macroLevels,
  functions: [
    'ABS',
    'ACOS',
    'ASIN',
    'ATAN',
    'COS',
    'EXP',
    'FIX',
    'FUP',
    'LN',
    'ROUND',
    'SIN',
    'SQRT',
    'TAN',
    'BIN',
    'BCD',
    'POW',
  ],
  namedParameters: false,
  oWords: false,
  macroFlow: true,
  openExpressions: true,
  semicolonComments: true,
  nestedCommentFault: false,
  commaLetters: 'ACR',
  lineNumberDigits: null,
  blockDeleteAnywhere: true,
  leastParameter: 0,
  repeatedWords: true,
  maximumLineLength: null,
};

export const dialects: Readonly<Record<DialectName, Dialect>> = { rs274ngc, macro };
