import { readFileSync } from 'node:fs';

/** A published value: what goes in, what comes out, how near it must be, and who says so. */
export interface ReferenceCase<Inputs, Expected> {
  readonly id: string;
  readonly topic: string;
  readonly quantity: string;
  readonly inputs: Inputs;
  readonly expected: Expected;
  readonly tolerance: 'exact' | 'context' | Readonly<Record<string, number>>;
  readonly source: string;
  /** How far the figure was confirmed: read, recomputed, from memory. */
  readonly confirmed: string;
  readonly note?: string;
}

/** The case of this id; a test that asks for one that is not there fails. */
export function referenceCase<Inputs = object, Expected = object>(
  id: string,
): ReferenceCase<Inputs, Expected> {
  const found = referenceCases.find((candidate) => candidate.id === id);
  if (found === undefined) throw new Error(`no reference case ${id}`);
  return found as ReferenceCase<Inputs, Expected>;
}

/** What a test of this case is called: the source stands in the name. */
export function named({ id, quantity, source, confirmed }: ReferenceCase<unknown, unknown>): string {
  return `${id}: ${quantity} (${source}; ${confirmed})`;
}

const collection: { readonly cases: readonly ReferenceCase<unknown, unknown>[] } = JSON.parse(
  readFileSync(new URL('./referenceValues.json', import.meta.url), 'utf8'),
);

/** The project's collection of published values, byte for byte as it was handed out: a clone needs nothing beside it. */
export const referenceCases = collection.cases;
