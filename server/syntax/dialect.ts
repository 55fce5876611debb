import type { BinaryOperator, FunctionName } from './tree.ts';

export type DialectName = 'rs274ngc' | 'macro';

/** What the scanner and parser need to know of a dialect: data, no code. */
export interface Dialect {
  readonly name: DialectName;
  readonly title: string;
  /** Letters, and signs in their place, that may begin a word. */
  readonly letters: string;
  /** Higher binds tighter; equal levels associate to the left; 0: the dialect does not have the operator. */
  readonly precedence: Readonly<Record<BinaryOperator, number>>;
  /** The same for a bracket that has a comparison in it. */
  readonly precedenceBesideComparison: Readonly<Record<BinaryOperator, number>>;
  readonly functions: readonly FunctionName[];
  readonly namedParameters: boolean;
  readonly oWords: boolean;
  readonly macroFlow: boolean;
  /** The value of a setting may be an expression without brackets: `#1=#2+#3`. */
  readonly openExpressions: boolean;
  readonly semicolonComments: boolean;
  /** A `(` inside a comment is a fault. */
  readonly nestedCommentFault: boolean;
  /** Letters that may follow a comma (`,R2`): corner words. */
  readonly commaLetters: string;
  /** Digits that an N number may have at most; null: any number of them, or none. */
  readonly lineNumberDigits: number | null;
  /** Block delete with a switch number (`/2`), behind the N number, or within the block. */
  readonly blockDeleteAnywhere: boolean;
  /** Least index of a parameter. */
  readonly leastParameter: 0 | 1;
  /** A letter may stand twice in a block (the macro family takes the last). */
  readonly repeatedWords: boolean;
  readonly maximumLineLength: number | null;
}
