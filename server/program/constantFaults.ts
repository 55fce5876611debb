import type { DialectName } from '../syntax/dialect.ts';
import type { Block, Expression, Item, Span } from '../syntax/tree.ts';
import { type ArithmeticFault, binary, call } from './arithmetic.ts';

export interface ConstantFault extends Span {
  readonly fault: ArithmeticFault;
}

/** Expressions of a block that have no value whatever the parameters hold: `SQRT[-1]`, `#1/0`. */
export function constantFaults(block: Block, dialect: DialectName): readonly ConstantFault[] {
  const faults: ConstantFault[] = [];
  for (const item of block.items)
    for (const expression of expressionsOf(item)) constant(expression, dialect, faults);
  return faults;
}

function expressionsOf(item: Item): readonly Expression[] {
  switch (item.kind) {
    case 'word':
      return [item.value];
    case 'setting':
      return [item.target, item.value];
    case 'output':
      return item.parameters;
    case 'flow':
      if (item.form === 'o-word') return item.arguments;
      if (item.form === 'end') return [];
      return [
        ...(item.condition ? [item.condition] : []),
        ...(item.form === 'goto' ? [item.target] : []),
        ...(item.form === 'if-then' && item.statement ? [item.statement.value] : []),
      ];
    default:
      return [];
  }
}

/** The value, where numbers alone make it; null where it hangs on anything else, or where a fault was told. */
function constant(e: Expression, dialect: DialectName, faults: ConstantFault[]): number | null {
  switch (e.kind) {
    case 'number':
      return e.value;
    case 'parameter':
      if ('expression' in e.index) constant(e.index.expression, dialect, faults);
      return null;
    case 'unary': {
      const value = constant(e.operand, dialect, faults);
      return value === null ? null : e.operator === '-' ? -value : value;
    }
    case 'binary': {
      const left = constant(e.left, dialect, faults);
      const right = constant(e.right, dialect, faults);
      const divides = (e.operator === '/' || e.operator === 'MOD') && right === 0;
      if (right === null || (left === null && !divides)) return null;
      return valueOr(binary(e.operator, left ?? 1, right, dialect), e, faults);
    }
    case 'call': {
      const [x, y] = e.arguments.map((argument) => constant(argument, dialect, faults));
      if (e.name === 'EXISTS' || x === undefined || x === null || y === null) return null;
      return valueOr(call(e.name, x, y, dialect), e, faults);
    }
    case 'bad':
      return null;
  }
}

function valueOr(
  result: number | ArithmeticFault,
  { start, end }: Span,
  faults: ConstantFault[],
): number | null {
  if (typeof result === 'number') return result;
  faults.push({ start, end, fault: result });
  return null;
}
