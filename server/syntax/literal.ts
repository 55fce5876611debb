import type { Expression } from './tree.ts';

/** The number that stands in the text, with its sign; null for anything computed. */
export function literal(expression: Expression): number | null {
  if (expression.kind === 'number') return expression.value;
  if (expression.kind !== 'unary') return null;
  const operand = literal(expression.operand);
  return operand === null ? null : expression.operator === '-' ? -operand : operand;
}
