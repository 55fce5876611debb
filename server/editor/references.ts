import type { Location, Position } from 'vscode-languageserver';
import { locationOf } from './definition.ts';
import { nameOccurrences } from './nameOccurrences.ts';
import { nameAt } from './names.ts';
import type { Surroundings } from './surroundings.ts';

/** Every place where the name at a position stands, in all programs that calls connect with this one. */
export function references(
  { program, related }: Surroundings,
  { line, character }: Position,
  withDeclarations: boolean,
): Location[] {
  const name = nameAt(program.source, line, character)?.name;
  if (!name) return [];
  return nameOccurrences(name, program, related)
    .filter(({ role }) => withDeclarations || role === 'reads')
    .map(locationOf);
}
