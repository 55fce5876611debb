/** Gives every variable of a routine a name of the dialect, once, and never one that the program uses. */
export type Namer = (name: string) => string;

/** `#<search_end>`; results of a subroutine are global, `#<_bore_centre_x>`, so that the caller can read them. */
export function namedParameters(
  used: ReadonlySet<string>,
  globalPrefix: string | null,
  results: ReadonlySet<string>,
): Namer {
  const taken = new Set([...used].map(bare));
  const given = new Map<string, string>();
  return (name) => {
    const known = given.get(name);
    if (known !== undefined) return known;
    const isGlobal = globalPrefix !== null && results.has(name);
    const chosen = firstFree(isGlobal ? `_${globalPrefix}_${snakeCase(name)}` : snakeCase(name), taken);
    taken.add(chosen);
    given.set(name, `#<${chosen}>`);
    return `#<${chosen}>`;
  };
}

const lastLocal = 33;

/** Numbers of the macro family: common variables that end with the power, and those of a G65 call's own. */
export interface NumberedScope {
  /** The common variables that may be taken, both included. */
  readonly common: { readonly first: number; readonly last: number };
  readonly used: ReadonlySet<string>;
  /** Arguments of a subroutine, from #1 on; null: an inline block, which has no locals of its own. */
  readonly arguments: readonly string[] | null;
  /** What a subroutine leaves to its caller, in common variables. */
  readonly results: ReadonlySet<string>;
}

/** null once the numbers are used up. */
export function numberedParameters(scope: NumberedScope): (name: string) => string | null {
  const taken = new Set([...scope.used].map((name) => Number(bare(name))));
  const commons = range(scope.common.first, scope.common.last).filter((number) => !taken.has(number));
  const locals = scope.arguments === null ? [] : range(scope.arguments.length + 1, lastLocal);
  const given = new Map((scope.arguments ?? []).map((name, index) => [name, `#${index + 1}`]));
  return (name) => {
    const known = given.get(name);
    if (known !== undefined) return known;
    const number = scope.results.has(name) ? commons.shift() : (locals.shift() ?? commons.shift());
    if (number === undefined) return null;
    given.set(name, `#${number}`);
    return `#${number}`;
  };
}

function range(first: number, last: number): number[] {
  return Array.from({ length: last - first + 1 }, (_, index) => first + index);
}

/** Numbers from `first` on that the program does not use as labels. */
export function labelNumbers(used: ReadonlySet<number | string>, first: number): () => number {
  const taken = new Set([...used].map(Number));
  let next = first;
  return () => {
    while (taken.has(next)) next++;
    return next++;
  };
}

/** The name itself, or with the first number behind it that makes it free. */
export function freeLabel(name: string, used: ReadonlySet<number | string>): string {
  return firstFree(name, new Set([...used].map((label) => bare(String(label)))));
}

export function snakeCase(name: string): string {
  return name.replace(/-/g, '_').replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
}

function firstFree(name: string, taken: ReadonlySet<string>): string {
  let chosen = name;
  for (let n = 2; taken.has(chosen); n++) chosen = `${name}_${n}`;
  return chosen;
}

/** `#<Search End>` and `search end` name the same parameter: blanks and case do not count. */
function bare(name: string): string {
  return name.replace(/[#<>\s]/g, '').toLowerCase();
}
