import type { Block, Expression, Item } from '../../server/syntax/tree.ts';

/** Every expression of an item, those inside others too. */
export function* expressionsIn(item: Item): Iterable<Expression> {
  for (const top of topsOf(item)) yield* within(top);
}

/** The conditions that a block decides by. */
export function conditionsOf(block: Block): readonly Expression[] {
  return block.items.flatMap((item) => {
    if (item.kind !== 'flow') return [];
    if (item.form === 'o-word')
      return ['if', 'elseif', 'while'].includes(item.keyword) ? [...item.arguments] : [];
    return 'condition' in item && item.condition !== null ? [item.condition] : [];
  });
}

export function* within(expression: Expression): Iterable<Expression> {
  yield expression;
  switch (expression.kind) {
    case 'parameter':
      if ('expression' in expression.index) yield* within(expression.index.expression);
      return;
    case 'unary':
      yield* within(expression.operand);
      return;
    case 'binary':
      yield* within(expression.left);
      yield* within(expression.right);
      return;
    case 'call':
      for (const argument of expression.arguments) yield* within(argument);
      return;
    default:
  }
}

function topsOf(item: Item): readonly Expression[] {
  switch (item.kind) {
    case 'word':
      return [item.value];
    case 'setting':
      return [item.target, item.value];
    case 'output':
      return item.parameters;
    case 'flow':
      if (item.form === 'o-word') return item.arguments;
      if (item.form === 'goto') return [...(item.condition ? [item.condition] : []), item.target];
      if (item.form === 'if-then')
        return [item.condition, ...(item.statement ? [item.statement.target, item.statement.value] : [])];
      return item.form === 'while-do' && item.condition ? [item.condition] : [];
    default:
      return [];
  }
}
