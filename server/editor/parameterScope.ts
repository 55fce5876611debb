import { type Procedure, proceduresOf } from '../analysis/procedures.ts';
import { isLocal } from '../program/parameters.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import { parameterName } from './parameterName.ts';
import { parametersOf } from './wordAt.ts';

export interface Occurrence {
  readonly name: string;
  readonly place: Place;
  readonly isSet: boolean;
}

/** Where a parameter of that name, as meant at that line, is set or read, in the order of the text. */
export function occurrencesOf(source: Source, name: string, line: number): Occurrence[] {
  const inScope = scopeOf(source, name, line);
  return [...occurrences(source, inScope)].filter((each) => each.name === name);
}

/** Names set anywhere that can be meant at that line: shared ones, and the locals of its own routine. */
export function namesInScope(source: Source, line: number): string[] {
  const own = routineOf(source, line);
  const names = new Set<string>();
  for (const { name, place, isSet } of occurrences(source, () => true)) {
    if (isSet && (!isLocal(name, source.dialect.name) || own(place.line))) names.add(name);
  }
  return [...names];
}

function* occurrences(source: Source, inScope: (line: number) => boolean): Iterable<Occurrence> {
  for (const line of source.otherLines()) {
    if (!inScope(line) || !source.text.line(line).includes('#')) continue;
    for (const item of source.block(line).items) {
      for (const { parameter, isSet } of parametersOf(item)) {
        const name = parameterName(parameter);
        if (name !== null) yield { name, place: { line, start: parameter.start, end: parameter.end }, isSet };
      }
    }
  }
}

function scopeOf(source: Source, name: string, line: number): (line: number) => boolean {
  return isLocal(name, source.dialect.name) ? routineOf(source, line) : () => true;
}

/** Whether a line belongs to the routine that this line is in. */
function routineOf(source: Source, line: number): (line: number) => boolean {
  const procedure = proceduresOf(source).all.find((each) => holds(each, line));
  return procedure ? (other) => holds(procedure, other) : () => true;
}

/** A routine's header may hold its arguments' names; it counts as part of it. */
function holds({ header, ranges }: Procedure, line: number): boolean {
  return line === header || ranges.some(([from, to]) => from <= line && line < to);
}
