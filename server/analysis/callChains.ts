/** The calls that lead to where a path runs, outermost first, by the names of their lines. */
export interface CallChain {
  readonly id: number;
  readonly calls: readonly number[];
  /** It begins in a subroutine that nobody in the file calls. */
  readonly openSubroutine: boolean;
}

/** A touch while the analysis runs: known by where it stands and the calls that lead there. */
export interface TouchSite {
  readonly id: number;
  /** The name of its line. */
  readonly line: number;
  readonly chain: CallChain;
}

/** Chains of calls and the touches that they lead to, each with a number that it keeps from version to version. */
export class CallChains {
  readonly #chains = new Map<string, CallChain>();
  readonly #ids = new Map<number, Map<number, number>>();
  readonly #sites: TouchSite[] = [];

  chain(calls: readonly number[], openSubroutine: boolean): CallChain {
    const key = `${openSubroutine}:${calls.join('>')}`;
    const known = this.#chains.get(key);
    if (known) return known;
    const chain = { id: this.#chains.size, calls, openSubroutine };
    this.#chains.set(key, chain);
    return chain;
  }

  idOf(line: number, chain: CallChain): number {
    const ids = this.#ids.get(chain.id) ?? new Map<number, number>();
    this.#ids.set(chain.id, ids);
    const known = ids.get(line);
    if (known !== undefined) return known;
    const id = this.#sites.length;
    ids.set(line, id);
    this.#sites.push({ id, line, chain });
    return id;
  }

  site(id: number): TouchSite | undefined {
    return this.#sites[id];
  }

  get touches(): number {
    return this.#sites.length;
  }
}
