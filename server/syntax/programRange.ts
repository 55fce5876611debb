import { lineKind } from './lineClass.ts';

/** Lines of the program: from `start` up to `end`. */
export interface ProgramRange {
  readonly start: number;
  readonly end: number;
}

interface Lines {
  readonly lineCount: number;
  kindOf(line: number): number;
  /** Lines that begin with `%`, in order. */
  percentLines(): Iterable<number>;
  hasFaults(line: number): boolean;
}

/** An opening `%` stands this near to the start of the file. */
const nearStart = 100;

/**
 * Which lines are the program (NISTIR 6556 3.1: between the two `%` lines where a file has them). Text before the first
 * `%` is none if it holds no block; text behind a closing `%` is none unless another `%` follows.
 */
export function findProgram(lines: Lines): ProgramRange {
  const whole = { start: 0, end: lines.lineCount };
  const percents: number[] = [];
  for (const line of lines.percentLines()) {
    percents.push(line);
    if (percents.length > 2) break;
  }
  const [open, close] = percents;
  if (open === undefined || open >= nearStart || !opens(lines, open)) return whole;
  const start = hasText(lines, 0, open) ? open : 0;
  const closes = close !== undefined && percents.length === 2 && hasText(lines, open + 1, close);
  return { start, end: closes ? close + 1 : lines.lineCount };
}

/** Whether a `%` begins the program: no program stands before it, and something stands behind it. */
function opens(lines: Lines, percent: number): boolean {
  for (let line = 0; line < percent; line++) {
    const kind = lines.kindOf(line);
    if (kind === lineKind.plain || kind === lineKind.plainLong || kind === lineKind.touch) return false;
  }
  let faulty = 0;
  let written = 0;
  for (let line = 0; line < percent; line++) {
    if (lines.kindOf(line) === lineKind.blank) continue;
    written++;
    if (lines.hasFaults(line)) faulty++;
  }
  if (written > 0 && faulty === 0) return false;
  return hasText(lines, percent + 1, lines.lineCount);
}

function hasText(lines: Lines, from: number, to: number): boolean {
  for (let line = from; line < to; line++) if (lines.kindOf(line) !== lineKind.blank) return true;
  return false;
}
