import { parameterUses } from '../analysis/parameterUses.ts';
import { literal } from '../syntax/literal.ts';
import { printExpression } from '../syntax/printBlock.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, Expression, Item } from '../syntax/tree.ts';

/**
 * Whether a parameter (digits, or letters without brackets) says a direction and can say either: the program sets it to
 * numbers of both signs, turns its sign round, or multiplies several lengths with it.
 */
export function saysDirection(name: string, source: Source): boolean {
  const lengths = new Set<string>();
  const signs = new Set<number>();
  for (const { line, reads, sets } of parameterUses(source)) {
    if (![...reads, ...sets].some((use) => use.name === name)) continue;
    const block = source.block(line);
    for (const value of valuesOf(block)) for (const length of factorsBeside(name, value)) lengths.add(length);
    for (const value of setTo(name, block)) {
      if (turns(name, value)) return true;
      const sign = Math.sign(literal(value) ?? 0);
      if (sign !== 0) signs.add(sign);
    }
    if (signs.size > 1 || lengths.size > 1) return true;
  }
  return false;
}

function valuesOf({ items }: Block): Expression[] {
  return items.flatMap((item: Item): readonly Expression[] => {
    if (item.kind === 'word' || item.kind === 'setting') return [item.value];
    return item.kind === 'flow' && item.form === 'o-word' ? item.arguments : [];
  });
}

function setTo(name: string, { items }: Block): Expression[] {
  return items.flatMap((item) => {
    const setting =
      item.kind === 'setting'
        ? item
        : item.kind === 'flow' && item.form === 'if-then'
          ? item.statement
          : null;
    return setting && isNamed(setting.target, name) ? [setting.value] : [];
  });
}

/** `-#1`, `0 - #1`, `#1 * -1`. */
function turns(name: string, e: Expression): boolean {
  if (e.kind === 'unary') return e.operator === '-' && isNamed(e.operand, name);
  if (e.kind !== 'binary') return false;
  if (e.operator === '-') return literal(e.left) === 0 && isNamed(e.right, name);
  if (e.operator !== '*') return false;
  return [e.left, e.right].some((side) => isNamed(side, name)) && [e.left, e.right].some(isNegative);
}

function isNegative(e: Expression): boolean {
  return (literal(e) ?? 0) < 0;
}

/** What the parameter is multiplied with, as text; a bare minus is one too. */
function factorsBeside(name: string, e: Expression): string[] {
  switch (e.kind) {
    case 'unary':
      return factorsBeside(name, e.operand);
    case 'call':
      return e.arguments.flatMap((argument) => factorsBeside(name, argument));
    case 'binary': {
      const inside = [...factorsBeside(name, e.left), ...factorsBeside(name, e.right)];
      if (e.operator !== '*') return inside;
      if (isNamed(e.left, name)) inside.push(printExpression(e.right));
      if (isNamed(e.right, name)) inside.push(printExpression(e.left));
      return inside;
    }
    default:
      return [];
  }
}

function isNamed(e: Expression, name: string): boolean {
  if (e.kind !== 'parameter') return false;
  return 'name' in e.index ? e.index.name === name : 'number' in e.index && String(e.index.number) === name;
}
