/** Drawing from a seed: the same seed gives the same row. */
export interface Random {
  /** A number in [0, 1). */
  next(): number;
  /** An integer from 0 up to, not including, the limit. */
  below(limit: number): number;
  of<T>(all: readonly T[]): T;
}

export function randomOf(seed: number): Random {
  // Seeds that follow each other would begin alike without this.
  let state = Math.imul((seed >>> 0) ^ 0x9e3779b9, 0x85ebca6b) >>> 0 || 1;
  const next = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
  next();
  return {
    next,
    below: (limit) => Math.floor(next() * limit),
    of: (all) => all[Math.floor(next() * all.length)] as (typeof all)[number],
  };
}
