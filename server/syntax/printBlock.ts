import type {
  BinaryExpression,
  BinaryOperator,
  Block,
  Expression,
  Item,
  ParameterExpression,
} from './tree.ts';

/** The text of a block as it stands, with some of its items written anew. */
export function printBlock(block: Block, written: ReadonlyMap<Item, string> = new Map()): string {
  let text = '';
  let at = 0;
  for (const item of block.items) {
    const replacement = written.get(item);
    if (replacement === undefined) continue;
    text += block.text.slice(at, item.start) + replacement;
    at = item.end;
  }
  return text + block.text.slice(at);
}

/**
 * An expression from its tree, as both dialects read it back: brackets only where their precedences could differ or
 * the tree needs them. What was no value prints as nothing.
 */
export function printExpression(expression: Expression): string {
  switch (expression.kind) {
    case 'number':
      return printNumber(expression.value);
    case 'parameter':
      return printParameter(expression);
    case 'unary':
      return expression.operator + printOperand(expression.operand);
    case 'binary':
      return `[${printChain(expression)}]`;
    case 'call':
      return printCall(expression.name, expression.arguments);
    case 'bad':
      return '';
  }
}

/**
 * `X10.0`, `G38.2`, `T1`: a word with at most `decimals` places. With any places it keeps a decimal point, because some
 * controls read a whole number as thousandths (common practice); with 0 it is a whole number.
 */
export function printWord(letter: string, value: number, decimals: number): string {
  const fixed = value.toFixed(decimals).replace(/(\.\d+?)0+$/, '$1');
  return letter + (Number(fixed) === 0 ? fixed.replace('-', '') : fixed);
}

/** A number without an exponent, which RS-274 does not have. */
function printNumber(value: number): string {
  const short = Object.is(value, -0) ? '-0' : String(value);
  if (!short.includes('e')) return short;
  return Math.abs(value) < 1 ? value.toFixed(20).replace(/0+$/, '') : BigInt(Math.round(value)).toString();
}

function printParameter({ index }: ParameterExpression): string {
  if ('name' in index) return `#<${index.name}>`;
  if ('number' in index) return `#${index.number}`;
  const { expression } = index;
  return `#${expression.kind === 'unary' ? printBracketed(expression) : printExpression(expression)}`;
}

/** A number behind a sign needs brackets, or the sign would be its own. */
function printOperand(operand: Expression): string {
  return operand.kind === 'number' || operand.kind === 'unary'
    ? printBracketed(operand)
    : printExpression(operand);
}

function printCall(name: string, values: readonly Expression[]): string {
  const [first, second] = values;
  if (first === undefined) return name;
  if (second === undefined) return name + printBracketed(first);
  if (name === 'ATAN') return `ATAN${printBracketed(first)}/${printBracketed(second)}`;
  return `${name}[${printBare(first)},${printBare(second)}]`;
}

function printBracketed(expression: Expression): string {
  return `[${printBare(expression)}]`;
}

function printBare(expression: Expression): string {
  return expression.kind === 'binary' ? printChain(expression) : printExpression(expression);
}

function printChain({ operator, left, right }: BinaryExpression): string {
  const first = left.kind === 'binary' && bindsFirst(left.operator, operator, 'left');
  const second = right.kind === 'binary' && bindsFirst(right.operator, operator, 'right');
  const leftText = first ? printBare(left) : printExpression(left);
  return `${leftText} ${operator} ${second ? printBare(right) : printExpression(right)}`;
}

/** Whether both dialects read `inner` before `outer` without brackets. */
function bindsFirst(inner: BinaryOperator, outer: BinaryOperator, side: 'left' | 'right'): boolean {
  const level = (operator: BinaryOperator) => ('*/'.includes(operator) ? 2 : '+-'.includes(operator) ? 1 : 0);
  const innerLevel = level(inner);
  const outerLevel = level(outer);
  if (innerLevel === 0 || outerLevel === 0) return false;
  return side === 'left' ? innerLevel >= outerLevel : innerLevel > outerLevel;
}
