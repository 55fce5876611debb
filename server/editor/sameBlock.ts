import type { Block } from '../syntax/tree.ts';

/** Whether two blocks say the same: equal trees, wherever their words stand in the line; blanks at the end of a comment count for nothing. */
export function isSameBlock(a: Block, b: Block): boolean {
  return a.faults.length === b.faults.length && meaningOf(a) === meaningOf(b);
}

function meaningOf({ lineNumber, blockDelete, items }: Block): string {
  return JSON.stringify({ lineNumber, blockDelete, items }, (key, value: unknown) =>
    placeKeys.has(key) ? undefined : key === 'text' ? String(value).trimEnd() : value,
  );
}

const placeKeys: ReadonlySet<string> = new Set(['start', 'end', 'keywordSpan', 'labelSpan']);
