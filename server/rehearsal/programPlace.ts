import type { JoinedProgram } from '../analysis/joinedProgram.ts';

/** A line as a person counts it. */
export interface ProgramPlace {
  /** 1-based, of its own file. */
  readonly line: number;
  /** URI of the called file that it stands in; null: the program itself. */
  readonly file: string | null;
}

/** @param line 0-based, of the joined program */
export function programPlace(program: JoinedProgram, line: number): ProgramPlace {
  const elsewhere = program.elsewhere(line);
  return elsewhere === null
    ? { line: line + 1, file: null }
    : { line: elsewhere.line + 1, file: elsewhere.uri };
}

/** `line 12`, `line 12 of edge.ngc`. */
export function placeWords({ line, file }: ProgramPlace): string {
  return file === null ? `line ${line}` : `line ${line} of ${lastName(file)}`;
}

function lastName(uri: string): string {
  const name = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}
