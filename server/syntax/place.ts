/** A place in a program: blocks never span lines, so a line (0-based) and UTF-16 offsets within it. */
export interface Place {
  readonly line: number;
  readonly start: number;
  readonly end: number;
}
