/**
 * What a block is made of. One line is one block; every span is a half-open range of UTF-16 offsets in that
 * line's text (line ending not included). The items of a block, with the blanks between them, account for
 * every character of the line.
 */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** A block: one line of the program. Parsing never fails; what is no block of the dialect stands in `faults`. */
export interface Block {
  /** The line as it stands, without its line ending. */
  readonly text: string;
  /**
   * `/` at the start, with the optional switch number behind it (`/2`). The macro dialect may also have it behind the
   * N number or within the block; then the words before it are executed all the same.
   */
  readonly blockDelete?: Span & { readonly level: number | null };
  /** `N10`; `value` is null for an N without digits. Leading zeros do not count. */
  readonly lineNumber?: Span & { readonly value: number | null };
  readonly items: readonly Item[];
  readonly faults: readonly Fault[];
}

export type Item = Word | Setting | Comment | Percent | Flow | Output | Stray;

/**
 * A letter and its value: `G38.2`, `X-[#1+2]`, `F#29`. The letter is upper case, whatever the text has. The macro
 * dialect's corner words keep their comma in it: `,R2` has the letter ",R"; a program number written `:1000` has "O".
 */
export interface Word extends Span {
  readonly kind: 'word';
  readonly letter: string;
  readonly value: Expression;
}

/** `#1=2`, `#<name>=[…]`, `##1=2`; several may stand in a block. */
export interface Setting extends Span {
  readonly kind: 'setting';
  readonly target: ParameterExpression;
  readonly value: Expression;
}

/** `( … )` or `; …`; `text` is what stands inside. An unclosed `(` runs to the end of the line, with a fault. */
export interface Comment extends Span {
  readonly kind: 'comment';
  readonly form: 'parenthesis' | 'semicolon';
  readonly text: string;
}

/** A line that begins with `%`; all of the line belongs to it. */
export interface Percent extends Span {
  readonly kind: 'percent';
}

/** The macro dialect's output commands: `POPEN`, `DPRNT[X#100[53]]`, `PCLOS`; `parameters` are those printed. */
export interface Output extends Span {
  readonly kind: 'output';
  readonly command: 'POPEN' | 'PCLOS' | 'DPRNT' | 'BPRNT';
  readonly parameters: readonly ParameterExpression[];
}

/** Text that is nothing of the language; a fault stands beside it. */
export interface Stray extends Span {
  readonly kind: 'stray';
}

/** Program flow. O-words belong to rs274ngc, the others to the macro dialect. */
export type Flow = OWordFlow | MacroFlow;

export type OKeyword =
  | 'sub'
  | 'endsub'
  | 'call'
  | 'return'
  | 'if'
  | 'elseif'
  | 'else'
  | 'endif'
  | 'while'
  | 'endwhile'
  | 'do'
  | 'repeat'
  | 'endrepeat'
  | 'break'
  | 'continue';

/** `o100 sub`, `o<probe_x> call [1] [2]`, `o1 if [#5070 EQ 0]`. */
export interface OWordFlow extends Span {
  readonly kind: 'flow';
  readonly form: 'o-word';
  readonly keyword: OKeyword;
  /** Span of the keyword. */
  readonly keywordSpan: Span;
  /** `100` as "100", `<probe_x>` as "probe_x" (lower case, blanks out); null where computed (`o#1 call`, `o[#1]`). */
  readonly label: string | null;
  /** Span of the label with its `o`. */
  readonly labelSpan: Span;
  readonly labelExpression?: Expression;
  /** Arguments of call; the condition of if, elseif, while; the count of repeat; the value of return, endsub. */
  readonly arguments: readonly Expression[];
}

/** In the macro dialect a program starts with `O0020`; that is a Word with letter O and no Flow. */
export type MacroFlow = Span & { readonly kind: 'flow' } & (
    | { readonly form: 'goto'; readonly condition: Expression | null; readonly target: Expression }
    /** `IF [..] THEN #1=2`: the statement is one setting (null where it is missing, with a fault). */
    | { readonly form: 'if-then'; readonly condition: Expression; readonly statement: Setting | null }
    /** `WHILE [..] DO1`; a DO without WHILE has a null condition (it loops for ever). */
    | { readonly form: 'while-do'; readonly condition: Expression | null; readonly loop: number | null }
    | { readonly form: 'end'; readonly loop: number | null }
  );

export type Expression =
  | NumberExpression
  | ParameterExpression
  | UnaryExpression
  | BinaryExpression
  | CallExpression
  | BadExpression;

/** The span of an expression in brackets takes in its brackets. */
export interface NumberExpression extends Span {
  readonly kind: 'number';
  readonly value: number;
}

/** `#1`, `#<name>`, `#[expr]`, `##1`. Names are lower case with blanks out, as the dialect compares them. */
export interface ParameterExpression extends Span {
  readonly kind: 'parameter';
  readonly index:
    | { readonly name: string }
    | { readonly number: number }
    | { readonly expression: Expression };
}

export interface UnaryExpression extends Span {
  readonly kind: 'unary';
  readonly operator: '-' | '+';
  readonly operand: Expression;
}

export type BinaryOperator =
  | '**'
  | '*'
  | '/'
  | 'MOD'
  | '+'
  | '-'
  | 'AND'
  | 'OR'
  | 'XOR'
  | 'EQ'
  | 'NE'
  | 'GT'
  | 'GE'
  | 'LT'
  | 'LE';

export interface BinaryExpression extends Span {
  readonly kind: 'binary';
  readonly operator: BinaryOperator;
  readonly left: Expression;
  readonly right: Expression;
}

export type FunctionName =
  | 'ABS'
  | 'ACOS'
  | 'ASIN'
  | 'ATAN'
  | 'COS'
  | 'EXP'
  | 'FIX'
  | 'FUP'
  | 'LN'
  | 'ROUND'
  | 'SIN'
  | 'SQRT'
  | 'TAN'
  | 'EXISTS'
  | 'BIN'
  | 'BCD'
  | 'POW';

/** `ATAN[y]/[x]` has two arguments, every other function one (POW of the macro dialect: two). */
export interface CallExpression extends Span {
  readonly kind: 'call';
  readonly name: FunctionName;
  readonly arguments: readonly Expression[];
}

/** Where a value should stand and none does. */
export interface BadExpression extends Span {
  readonly kind: 'bad';
}

/** Why a line is no block of the dialect. `checks/` words it; `detail` is the text or number that it needs. */
export interface Fault extends Span {
  readonly code:
    | 'unexpected-character'
    | 'unclosed-comment'
    | 'unclosed-bracket'
    | 'unclosed-name'
    | 'stray-bracket'
    | 'missing-value'
    | 'bad-number'
    | 'missing-operand'
    | 'unknown-function'
    | 'unknown-keyword'
    | 'program-number'
    | 'missing-condition'
    | 'missing-target'
    | 'missing-statement'
    | 'missing-label'
    | 'trailing-text'
    | 'nested-too-deep'
    | 'line-too-long'
    | 'bad-letter'
    | 'bad-line-number'
    | 'missing-equals'
    | 'nested-comment'
    | 'missing-brackets'
    | 'empty-variable'
    | 'loop-number'
    | 'misplaced-line-number';
  readonly detail?: string;
}
