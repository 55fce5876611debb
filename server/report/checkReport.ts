import type { Finding } from '../checks/rule.ts';
import type { DialectName } from '../syntax/dialect.ts';

/** One program with what was found in it, as a report needs it. */
export interface CheckedProgram {
  /** As the reader knows it: relative to where they are, with forward slashes; `-` is standard input. */
  readonly path: string;
  readonly dialect: DialectName;
  /** In the order of the text. */
  readonly findings: readonly Finding[];
  /** The text of a line (0-based), without its ending. */
  line(index: number): string;
}

export interface CheckSummary {
  readonly error: number;
  readonly warning: number;
  readonly info: number;
  /** Findings that a comment with a reason allows. */
  readonly suppressed: number;
  /** Findings that a baseline holds. */
  readonly known: number;
  readonly programs: number;
}

/** What every report of a check knows from the start. */
export interface CheckHeader {
  readonly version: string;
  /** Path of the profile that all programs share; null: the built-in one, or not one for all. */
  readonly profile: string | null;
}

/** A report comes out in pieces, so that the findings of many large programs are never in memory together. */
export interface CheckReport {
  begin(): Iterable<string>;
  program(program: CheckedProgram): Iterable<string>;
  end(summary: CheckSummary): Iterable<string>;
}
