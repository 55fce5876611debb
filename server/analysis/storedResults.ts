import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import { shownName } from './derived.ts';
import type { Datum } from './model.ts';
import { parameterUses } from './parameterUses.ts';

/** Results of one program that are looked at; who stores more is measuring points, and compensates elsewhere. */
const mostResults = 60;

/**
 * Values derived from touches that the program leaves in parameters for somebody to read: nothing in it reads them on, or
 * a comment or an output names them. An angle is a result even where the program turns by it. As datums whose target is the
 * parameter, those of one setting at a time.
 */
export function* storedResults(
  source: Source,
  derivedBehind: (line: number, name: string) => readonly Datum[],
): Generator<readonly Datum[], void> {
  const uses = parameterUses(source);
  const told = new Set<string | null>();
  const readOn = new Set<string | null>();
  for (const { how, name } of uses.flatMap(({ reads }) => reads))
    (how === 'printed' ? told : readOn).add(name);
  // A read of a computed number may be of any.
  if (readOn.has(null))
    for (const { sets } of uses) for (const { name } of sets) if (isNumbered(name)) readOn.add(name);
  const results = uses
    .flatMap(({ sets }) => sets)
    .filter(
      ({ name, place }) => name !== null && (told.has(name) || !readOn.has(name) || isAngle(source, place)),
    );
  for (const { name, place } of results.slice(0, mostResults))
    yield derivedBehind(place.line, shownName(name ?? '')).map((datum) => ({
      ...datum,
      line: place.line,
      place,
    }));
}

function isAngle(source: Source, { line, start }: Place): boolean {
  return /a\s*(t\s*a\s*n|s\s*i\s*n|c\s*o\s*s)/i.test(source.text.line(line).slice(start));
}

function isNumbered(name: string | null): boolean {
  return name !== null && /^\d+$/.test(name);
}
