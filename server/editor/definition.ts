import type { Location, Position } from 'vscode-languageserver';
import type { Procedure } from '../analysis/procedures.ts';
import { argumentNumbers } from '../program/macroArguments.ts';
import type { Place } from '../syntax/place.ts';
import type { Expression } from '../syntax/tree.ts';
import { callsOf, type KnownProgram } from '../workspace/relatedPrograms.ts';
import { nameOccurrences, type Occurrence } from './nameOccurrences.ts';
import { nameAt } from './names.ts';
import { rangeOf } from './ranges.ts';
import type { Surroundings } from './surroundings.ts';

/**
 * Where a parameter is first set, a subroutine begins, an N number or a label of flow stands, also in other files; of a
 * parameter that calls set, their arguments.
 */
export function definition({ program, related }: Surroundings, { line, character }: Position): Location[] {
  const name = nameAt(program.source, line, character)?.name;
  if (!name) return [];
  if (name.kind === 'subroutine') return subroutine(name.name, program);
  const occurrences = nameOccurrences(name, program, related);
  const first = occurrences.find(({ role }) => role !== 'reads');
  if (first) return [locationOf(first)];
  return name.kind === 'parameter' && name.within
    ? argumentsFor(name.name, name.within, program, related)
    : [];
}

export function locationOf({ uri, place }: Pick<Occurrence, 'uri' | 'place'>): Location {
  return { uri, range: rangeOf(place) };
}

function subroutine(name: string, program: KnownProgram): Location[] {
  const callee = program.callee(name);
  if (!callee) return [];
  const start: Place = { line: 0, start: 0, end: 0 };
  return [locationOf({ uri: callee.uri, place: callee.procedure.place ?? start })];
}

/** The argument of each call that a local of the called subroutine carries. */
function argumentsFor(
  name: string,
  procedure: Procedure,
  { uri }: KnownProgram,
  related: readonly KnownProgram[],
): Location[] {
  const number = /^\d+$/.test(name) ? Number(name) : 0;
  if (number < 1 || procedure.name === null) return [];
  return [...callsOf({ uri, procedure }, related)].flatMap(({ site, program }) => {
    const { line } = site.place;
    const value = argumentOf(program, line, number);
    return value
      ? [locationOf({ uri: program.uri, place: { line, start: value.start, end: value.end } })]
      : [];
  });
}

function argumentOf({ source }: KnownProgram, line: number, number: number): Expression | null {
  const { items } = source.block(line);
  for (const item of items) {
    if (item.kind === 'flow' && item.form === 'o-word') return item.arguments[number - 1] ?? null;
    if (item.kind === 'word' && argumentNumbers[item.letter] === number) return item.value;
  }
  return null;
}
