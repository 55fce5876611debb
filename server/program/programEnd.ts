import type { Source } from '../syntax/source.ts';

/** What a program lacks at its end. */
export type MissingProgramEnd = 'end-code' | 'closing-percent';

/**
 * How the file fails to end its program (NISTIR 6556, 3.1): a `%` at its start asks for a `%` behind it, and without them
 * M2 or M30 must stand somewhere. Null where it ends. Files of subroutines alone have no such end and need none.
 */
export function missingProgramEnd(source: Source): MissingProgramEnd | null {
  let percents = 0;
  let opens = false;
  let ends = false;
  for (const line of source.otherLines()) {
    const { items } = source.block(line);
    if (items.some(({ kind }) => kind === 'percent')) {
      if (percents++ === 0) opens = isFirst(source, line);
    } else if (items.some((item) => item.kind === 'word' && item.letter === 'M' && isEnd(item.value)))
      ends = true;
  }
  if (opens) return percents > 1 ? null : 'closing-percent';
  return ends ? null : 'end-code';
}

function isFirst(source: Source, line: number): boolean {
  for (let before = 0; before < line; before++) if (source.classOf(before) !== 0) return false;
  return true;
}

function isEnd(value: { readonly kind: string; readonly value?: unknown }): boolean {
  return value.kind === 'number' && (value.value === 2 || value.value === 30);
}
