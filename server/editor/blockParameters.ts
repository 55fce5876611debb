import { readMessage } from '../syntax/messages.ts';
import type { Source } from '../syntax/source.ts';
import type { ParameterExpression } from '../syntax/tree.ts';
import { parametersOf } from './wordAt.ts';

export interface ParameterUse {
  readonly parameter: ParameterExpression;
  readonly isSet: boolean;
}

/** Every parameter that a line sets or reads, those that a comment prints too. */
export function* blockParameters(source: Source, line: number): Iterable<ParameterUse> {
  const block = source.block(line);
  for (const item of block.items) {
    if (item.kind !== 'comment') yield* parametersOf(item);
    else
      for (const parameter of readMessage(block, item, source.dialect)?.parameters ?? [])
        yield { parameter, isSet: false };
  }
}

/** The innermost parameter at a character of a line. */
export function parameterAt(source: Source, line: number, character: number): ParameterExpression | null {
  let innermost: ParameterExpression | null = null;
  for (const { parameter } of blockParameters(source, line)) {
    if (parameter.start > character || character > parameter.end) continue;
    if (!innermost || parameter.end - parameter.start <= innermost.end - innermost.start)
      innermost = parameter;
  }
  return innermost;
}
