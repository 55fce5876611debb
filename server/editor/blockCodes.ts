import { codeName } from '../program/codes.ts';
import type { Block } from '../syntax/tree.ts';

/** Names of the G and M codes that a block writes out: `G38.2`, `M3`; computed ones are not among them. */
export function codesOfBlock(block: Block): string[] {
  return block.items.flatMap((item) => {
    if (item.kind !== 'word' || item.value.kind !== 'number') return [];
    if (item.letter !== 'G' && item.letter !== 'M') return [];
    return codeName(item.letter, item.value.value) ?? [];
  });
}
