import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import type { Block, Expression, Item } from '../../server/syntax/tree.ts';

/** A line's block in a few words: `N10 G=38.2 X=(- #1)`; operators and functions come first, as in (+ 1 2). */
export function outline(line: string, dialect: DialectName): string {
  return outlineBlock(parseBlock(line, dialects[dialect]));
}

/** A line's faults as `code@start-end`. */
export function faults(line: string, dialect: DialectName): string {
  const found = parseBlock(line, dialects[dialect]).faults;
  return found.map((fault) => `${fault.code}@${fault.start}-${fault.end}`).join(' ');
}

export function outlineBlock(block: Block): string {
  const parts: string[] = [];
  if (block.blockDelete) parts.push(`/${block.blockDelete.level ?? ''}`);
  if (block.lineNumber) parts.push(`N${block.lineNumber.value ?? ''}`);
  return [...parts, ...block.items.map(outlineItem)].join(' ');
}

export function outlineItem(item: Item): string {
  switch (item.kind) {
    case 'word':
      return `${item.letter}=${outlineExpression(item.value)}`;
    case 'setting':
      return `${outlineExpression(item.target)}:=${outlineExpression(item.value)}`;
    case 'comment':
      return item.form === 'semicolon' ? `;"${item.text}"` : `"${item.text}"`;
    case 'output':
      return [item.command, ...item.parameters.map(outlineExpression)].join(' ');
    case 'flow':
      return outlineFlow(item);
    default:
      return item.kind;
  }
}

function outlineFlow(item: Item & { kind: 'flow' }): string {
  switch (item.form) {
    case 'o-word': {
      const label = item.labelExpression ? outlineExpression(item.labelExpression) : (item.label ?? '?');
      return [`o:${label}`, item.keyword, ...item.arguments.map(outlineExpression)].join(' ');
    }
    case 'goto':
      return `${condition('if', item.condition)}goto ${outlineExpression(item.target)}`;
    case 'if-then':
      return `${condition('if', item.condition)}then ${item.statement ? outlineItem(item.statement) : '?'}`;
    case 'while-do':
      return `${condition('while', item.condition)}do ${item.loop ?? '?'}`;
    case 'end':
      return `end ${item.loop ?? '?'}`;
  }
}

function condition(keyword: string, expression: Expression | null): string {
  return expression ? `${keyword} ${outlineExpression(expression)} ` : '';
}

export function outlineExpression(expression: Expression): string {
  switch (expression.kind) {
    case 'number':
      return Object.is(expression.value, -0) ? '-0' : String(expression.value);
    case 'parameter': {
      const { index } = expression;
      if ('name' in index) return `#<${index.name}>`;
      return 'number' in index ? `#${index.number}` : `#[${outlineExpression(index.expression)}]`;
    }
    case 'unary':
      return `(${expression.operator} ${outlineExpression(expression.operand)})`;
    case 'binary':
      return `(${expression.operator} ${outlineExpression(expression.left)} ${outlineExpression(expression.right)})`;
    case 'call':
      return `(${[expression.name, ...expression.arguments.map(outlineExpression)].join(' ')})`;
    case 'bad':
      return '?';
  }
}
