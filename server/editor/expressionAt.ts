import type { BinaryExpression, CallExpression, Expression, Item } from '../syntax/tree.ts';
import { bareSpan } from './bareSpan.ts';

/** A function's name or an operator, and where it stands. */
export interface OperationAt {
  readonly expression: CallExpression | BinaryExpression;
  readonly start: number;
  readonly end: number;
}

/** The function or operator that the character is on; null on anything else. */
export function operationAt(item: Item, text: string, character: number): OperationAt | null {
  for (const value of valuesOf(item)) {
    const found = within(value, text, character);
    if (found) return found;
  }
  return null;
}

function valuesOf(item: Item): readonly Expression[] {
  if (item.kind === 'word') return [item.value];
  if (item.kind === 'setting') return [item.target, item.value];
  if (item.kind !== 'flow') return [];
  switch (item.form) {
    case 'o-word':
      return item.labelExpression ? [item.labelExpression, ...item.arguments] : item.arguments;
    case 'goto':
      return item.condition ? [item.condition, item.target] : [item.target];
    case 'if-then':
      return item.statement ? [item.condition, ...valuesOf(item.statement)] : [item.condition];
    case 'while-do':
      return item.condition ? [item.condition] : [];
    case 'end':
      return [];
  }
}

function within(e: Expression, text: string, character: number): OperationAt | null {
  if (character < e.start || character > e.end) return null;
  switch (e.kind) {
    case 'parameter':
      return 'expression' in e.index ? within(e.index.expression, text, character) : null;
    case 'unary':
      return within(e.operand, text, character);
    case 'call': {
      const { start } = bareSpan(e, text);
      const open = text.indexOf('[', start);
      if (start <= character && character < open) return { expression: e, start, end: open };
      return firstOf(e.arguments, text, character);
    }
    case 'binary':
      return operatorOf(e, text, character) ?? firstOf([e.left, e.right], text, character);
    default:
      return null;
  }
}

function firstOf(values: readonly Expression[], text: string, character: number): OperationAt | null {
  for (const value of values) {
    const found = within(value, text, character);
    if (found) return found;
  }
  return null;
}

/** The operator stands between its operands, in blanks and in the brackets that close the left one. */
function operatorOf(e: BinaryExpression, text: string, character: number): OperationAt | null {
  const between = text.slice(e.left.end, e.right.start);
  const found = new RegExp(
    [...e.operator].map((each) => `\\${each}`.replace(/\\([A-Z])/, '$1')).join('\\s*'),
    'i',
  ).exec(between);
  if (!found) return null;
  const start = e.left.end + found.index;
  const end = start + found[0].length;
  return start <= character && character < end ? { expression: e, start, end } : null;
}
