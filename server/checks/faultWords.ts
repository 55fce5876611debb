import type { ArithmeticFault } from '../program/arithmetic.ts';
import type { Dialect } from '../syntax/dialect.ts';
import type { Fault } from '../syntax/tree.ts';

/** What is wrong with a line, in plain words. */
export function wordFault(fault: Fault, text: string, dialect: Dialect): string {
  const found = shown(text.slice(fault.start, fault.end));
  const detail = fault.detail ?? '';
  switch (fault.code) {
    case 'unexpected-character':
      return `${found} is nothing of the language here.`;
    case 'unclosed-comment':
      return 'This comment has no ")": the control reads the rest of the line as comment, or stops here.';
    case 'unclosed-bracket':
      return 'This "[" has no "]" on the line.';
    case 'unclosed-name':
      return 'This "<" has no ">" on the line.';
    case 'stray-bracket':
      return `${found} closes nothing.`;
    case 'missing-value':
      return detail ? `${shown(detail)} has no value.` : `${found} has no value.`;
    case 'bad-number':
      return `${found} is no number: it has a sign, digits and one point.`;
    case 'missing-operand':
      if (/^[A-Z]{2,}$/.test(detail) && dialect.functions.some((name) => name === detail))
        return `${shown(detail)} needs its value in brackets behind it.`;
      return detail ? `${shown(detail)} has no value beside it.` : 'A value is missing here.';
    case 'unknown-function':
      return `${detail ? shown(detail) : found} is no function of the language; it has ${dialect.functions.join(', ')}.`;
    case 'unknown-keyword':
      return `${detail ? shown(detail) : found} is no keyword of program flow.`;
    case 'program-number':
      return `${found} begins a program in the macro dialect; in this one an O-word needs a keyword such as sub, call or if.`;
    case 'missing-condition':
      return 'A condition in brackets should stand here.';
    case 'missing-target':
      return 'GOTO needs the number of the N block to jump to.';
    case 'missing-statement':
      return missingStatements[detail] ?? 'A statement is missing here.';
    case 'missing-label':
      return 'An O-word needs a number or a <name>.';
    case 'trailing-text':
      return `${found} stands behind the end of the statement and is not read, or stops the control.`;
    case 'nested-too-deep':
      return 'Brackets are nested too deep to be read.';
    case 'line-too-long':
      return `The line has ${text.length} characters; the dialect allows ${dialect.maximumLineLength ?? detail}.`;
    case 'bad-letter':
      return `${found} begins no word of this dialect.`;
    case 'bad-line-number':
      return 'N takes up to five digits, with no sign, point or expression.';
    case 'nested-comment':
      return 'A "(" inside a comment: the comment ends at the first ")", and RS274/NGC raises an error.';
    case 'missing-brackets':
      return `${found} must stand in brackets.`;
    case 'misplaced-line-number':
      return `${found} must stand at the start of the line.`;
    case 'empty-variable':
      return `${found} is the empty variable: it holds nothing, and no value can be put into it.`;
    case 'loop-number':
      return `${found}: loops have the numbers 1 to 3; most controls stop with an alarm.`;
    case 'missing-equals':
      return 'A parameter at this place is set, and needs "=" and a value.';
  }
}

/** What does not stand behind these keywords of the macro family. */
const missingStatements: Readonly<Record<string, string>> = {
  IF: 'IF needs GOTO and a block number, or THEN and a setting, behind its condition.',
  THEN: 'THEN needs a setting behind it, such as #1=2.',
  DPRNT: 'DPRNT needs what it prints in brackets behind it, such as DPRNT[X#100[53]].',
  BPRNT: 'BPRNT needs what it sends in brackets behind it.',
  WHILE: 'WHILE needs DO and a number behind its condition.',
};

/** Enough of the text to find it by, with what can't be seen made visible. */
function shown(text: string): string {
  const visible = text.replace(/[\u0000-\u001f\u007f-\u009f\ufffd]/g, '·').trim();
  return `"${visible.length > 24 ? `${visible.slice(0, 24)}…` : visible}"`;
}

/** Why an expression of numbers alone has no value. */
export const constantWords: Readonly<Record<ArithmeticFault, string>> = {
  'division-by-zero': 'divides by 0',
  'root-of-negative': 'is the square root of a negative number',
  'logarithm-of-nonpositive': 'is the logarithm of 0 or of a negative number',
  'inverse-out-of-range': 'takes a number from -1 to 1',
  'negative-base': 'raises a negative number to a broken power',
  'not-finite': 'has no finite value',
};
