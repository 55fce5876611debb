import { readFileSync } from 'node:fs';
import path from 'node:path';

/** A published value as `shared/reference` has it: inputs, expected values, source and how far it was confirmed. */
export interface ReferenceCase {
  readonly id: string;
  readonly topic: string;
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, unknown>>;
  readonly expected: Readonly<Record<string, unknown>>;
  readonly tolerance: unknown;
  readonly source: string;
  readonly confirmed: string;
  readonly note?: string;
}

const file = path.resolve(import.meta.dirname, '../../../shared/reference/reference-values.json');

/** Every case of a topic; a topic without one is an error, so that no test can pass on nothing. */
export function casesOf(topic: string): readonly ReferenceCase[] {
  const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: ReferenceCase[] };
  const found = cases.filter((c) => c.topic === topic);
  if (found.length === 0) throw new Error(`no case of topic ${topic} in ${file}`);
  return found;
}

/** One case by its id. */
export function caseOf(topic: string, id: string): ReferenceCase {
  const found = casesOf(topic).find((c) => c.id === id);
  if (!found) throw new Error(`no case ${id} in ${file}`);
  return found;
}

/** What a test is called: the case, its source, and what of it was not read in the source. */
export function title(c: ReferenceCase): string {
  const confirmed = c.confirmed === 'read' ? '' : ` (${c.confirmed})`;
  return `${c.id}: ${c.quantity} - ${c.source}${confirmed}`;
}
