import type { Chunk } from './chunk.ts';
import type { SourceText } from './sourceText.ts';

/** What language a file is in shows at its beginning; the rest of a long file is not looked at. */
export const linesLookedAt = 5000;

/** Keeps what was found at the beginning of a text for as long as none of its lines changes. */
export class StartMemory<T> {
  readonly #known = new WeakMap<Chunk, { readonly chunks: readonly Chunk[]; readonly found: T }>();

  of(text: SourceText, find: () => T): T {
    const [first] = text.chunks;
    if (!first) return find();
    const known = this.#known.get(first);
    const count = startOf(text);
    if (known?.chunks.length === count && known.chunks.every((chunk, at) => chunk === text.chunks[at]))
      return known.found;
    const found = find();
    this.#known.set(first, { chunks: text.chunks.slice(0, count), found });
    return found;
  }
}

/** How many chunks the lines that are looked at stand in. */
function startOf({ chunks }: SourceText): number {
  let lines = 0;
  let at = 0;
  for (; at < chunks.length && lines < linesLookedAt; at++) lines += chunks[at]?.lineCount ?? 0;
  return at;
}
