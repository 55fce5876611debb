import { plainName } from '../syntax/expressions.ts';
import type { Program } from '../workspace/program.ts';
import { type KnownProgram, knownPrograms, relatedPrograms } from '../workspace/relatedPrograms.ts';
import type { Session } from './session.ts';

/** A program and those that calls connect with it: open ones, and files that they call. */
export interface Surroundings {
  readonly program: KnownProgram;
  /** Itself among them. */
  readonly related: readonly KnownProgram[];
  /** The parameter that the profile names, as a program writes it. */
  readonly namedByProfile: string | null;
}

/** @param open every open program; of the one that is asked about the given version counts */
export function surroundings(program: Program, open: readonly Program[]): Surroundings {
  const others = open.filter(({ uri }) => uri !== program.uri);
  const related = relatedPrograms(program.uri, knownPrograms([program, ...others]));
  const [first] = related;
  if (!first) throw new Error(`${program.uri} is not known`);
  const named = program.profile.profile.effectiveDiameterParameter;
  const namedByProfile = named && plainName(named);
  return { program: first, related, namedByProfile };
}

/** Every program that is open now and can be looked into. */
export async function openPrograms({ documents, program }: Session): Promise<Program[]> {
  const all = await Promise.all(documents.all().map(({ uri }) => program(uri)));
  return all.filter((each) => each !== null && each.notChecked === null) as Program[];
}
