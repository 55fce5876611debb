import type { Source } from '../syntax/source.ts';
import type { Procedure, Procedures } from './procedures.ts';

/** A file that calls lead to, read in the dialect of the program that runs: it is the same control. */
export interface CalledFile {
  readonly uri: string;
  readonly source: Source;
}

/**
 * The file to which a call leads: one of `files`, or the program itself; else why none is followed. `missing`: the name
 * of a file that was looked for and is not there.
 */
export type Lead =
  | { readonly file: number | 'program' }
  | { readonly reason: string; readonly missing?: string };

/** What calls lead to outside of the file that they stand in. Files are found and read elsewhere, and handed in. */
export interface CalledFiles {
  readonly files: readonly CalledFile[];
  /**
   * Where a call of this name leads that the file itself does not answer; `from` is the file that it stands in. null:
   * nobody looked, so nothing is said about it.
   */
  lead(from: number | 'program', name: string): Lead | null;
}

export const noCalledFiles: CalledFiles = { files: [], lead: () => null };

/**
 * What runs of a file that was found under the name of a call: the subroutine of that name; in the macro family, where
 * the file gives no number, the file as a whole.
 */
export function calledProcedure(
  { byName, all }: Procedures,
  name: string,
  oWords: boolean,
): Procedure | null {
  const named = byName.get(name);
  if (named || oWords) return named ?? null;
  const [first] = all;
  return first && first.name === null ? first : null;
}
