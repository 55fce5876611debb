import type { Block, Expression, Item, ParameterExpression, Span } from '../syntax/tree.ts';

/** What stands at a character of a block, from the outside in: the item, and the parameter inside it. */
export interface WordAt {
  readonly item: Item;
  readonly parameter: ParameterExpression | null;
}

/** A caret at the end of a word is still on it, unless the next one begins there. */
export function wordAt(block: Block, character: number): WordAt | null {
  const item =
    block.items.find((each) => each.start <= character && character < each.end) ??
    block.items.find((each) => each.end === character);
  if (!item) return null;
  return { item, parameter: parameterIn(item, character) };
}

/** Every parameter that an item reads or sets, outermost first. */
export function* parametersOf(item: Item): Iterable<{ parameter: ParameterExpression; isSet: boolean }> {
  switch (item.kind) {
    case 'word':
      yield* read(item.value);
      break;
    case 'setting':
      yield { parameter: item.target, isSet: true };
      if ('expression' in item.target.index) yield* read(item.target.index.expression);
      yield* read(item.value);
      break;
    case 'flow':
      for (const expression of flowExpressions(item)) yield* read(expression);
      if (item.form === 'if-then' && item.statement) yield* parametersOf(item.statement);
      break;
    case 'output':
      for (const parameter of item.parameters) yield* read(parameter);
      break;
  }
}

export function flowExpressions(flow: Extract<Item, { kind: 'flow' }>): readonly Expression[] {
  switch (flow.form) {
    case 'o-word':
      return flow.labelExpression ? [flow.labelExpression, ...flow.arguments] : flow.arguments;
    case 'goto':
      return flow.condition ? [flow.condition, flow.target] : [flow.target];
    case 'if-then':
      return [flow.condition];
    case 'while-do':
      return flow.condition ? [flow.condition] : [];
    case 'end':
      return [];
  }
}

function* read(expression: Expression): Iterable<{ parameter: ParameterExpression; isSet: boolean }> {
  switch (expression.kind) {
    case 'parameter':
      yield { parameter: expression, isSet: false };
      if ('expression' in expression.index) yield* read(expression.index.expression);
      break;
    case 'unary':
      yield* read(expression.operand);
      break;
    case 'binary':
      yield* read(expression.left);
      yield* read(expression.right);
      break;
    case 'call':
      for (const argument of expression.arguments) yield* read(argument);
      break;
  }
}

function parameterIn(item: Item, character: number): ParameterExpression | null {
  let innermost: ParameterExpression | null = null;
  for (const { parameter } of parametersOf(item)) {
    if (holds(parameter, character) && (!innermost || length(parameter) <= length(innermost)))
      innermost = parameter;
  }
  return innermost;
}

function holds({ start, end }: Span, character: number): boolean {
  return start <= character && character <= end;
}

function length({ start, end }: Span): number {
  return end - start;
}
