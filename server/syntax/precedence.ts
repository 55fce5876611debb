import type { Dialect } from './dialect.ts';
import type { Scanner } from './scanner.ts';
import type { BinaryOperator, Expression } from './tree.ts';

/** Operands with the operators between them, as they stand in the line. */
export interface Chain {
  readonly operands: Expression[];
  readonly heights: number[];
  readonly operators: BinaryOperator[];
}

/**
 * The tree of a chain: tighter operators first, equal ones from the left (NISTIR 6556 3.3.2.3). A comparison in the chain
 * selects the dialect's second table.
 */
export function buildTree(scanner: Scanner, chain: Chain): Expression {
  const levels = levelsFor(scanner.dialect, chain.operators);
  const values: Expression[] = [];
  const heights: number[] = [];
  const waiting: BinaryOperator[] = [];
  chain.operands.forEach((operand, index) => {
    values.push(operand);
    heights.push(chain.heights[index] ?? 1);
    const next = chain.operators[index];
    while (waiting.length > 0 && (next === undefined || levels(waiting.at(-1)) >= levels(next))) {
      join(values, heights, waiting);
    }
    if (next !== undefined) waiting.push(next);
  });
  const whole = values[0] as Expression;
  const low = scanner.limitHeight(heights[0] ?? 1, whole.start);
  return low ? whole : { kind: 'bad', start: whole.start, end: scanner.end };
}

function levelsFor(dialect: Dialect, operators: readonly BinaryOperator[]) {
  const table = operators.some(isComparison) ? dialect.precedenceBesideComparison : dialect.precedence;
  // An operator that the dialect lacks has its fault already; it binds tightest.
  return (operator: BinaryOperator | undefined) => (operator && table[operator]) || 9;
}

export function isComparison(operator: BinaryOperator): boolean {
  return /^(EQ|NE|G[TE]|L[TE])$/.test(operator);
}

function join(values: Expression[], heights: number[], waiting: BinaryOperator[]): void {
  const operator = waiting.pop() as BinaryOperator;
  const right = values.pop() as Expression;
  const left = values.pop() as Expression;
  values.push({ kind: 'binary', operator, left, right, start: left.start, end: right.end });
  const height = Math.max(heights.pop() ?? 1, heights.pop() ?? 1) + 1;
  heights.push(height);
}
