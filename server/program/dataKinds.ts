import type { DialectName } from '../syntax/dialect.ts';
import { literal } from '../syntax/literal.ts';
import type { Block, Word } from '../syntax/tree.ts';

/** The L number of a G10, and its word; null where there is none, or a computed one. */
export function dataKindOf(block: Block): { readonly word: Word; readonly value: number } | null {
  const words = block.items.filter((item) => item.kind === 'word');
  const sets = words.some(({ letter, value }) => letter === 'G' && literal(value) === 10);
  const word = sets ? words.find(({ letter }) => letter === 'L') : undefined;
  const value = word ? literal(word.value) : null;
  return word && value !== null ? { word, value } : null;
}

/** L2 by NISTIR 6556, 3.5.5; the others common practice, no source. The macro family has more than can be listed. */
const known: Readonly<Record<DialectName, readonly number[] | null>> = {
  rs274ngc: [0, 1, 2, 10, 11, 20],
  macro: null,
};

/** Whether G10 sets anything by this L number. */
export function isDataKind(value: number, dialect: DialectName): boolean {
  return known[dialect]?.some((kind) => Math.abs(kind - value) <= 1e-4) ?? true;
}
