import type { Range } from 'vscode-languageserver';
import type { Procedure } from '../analysis/procedures.ts';
import type { Source } from '../syntax/source.ts';
import { rangeOf } from './ranges.ts';

/** As lists show it: `edge`, `O100`; null for a main program without a number. */
export function routineName({ name }: Pick<Procedure, 'name'>): string | null {
  return name !== null && /^\d+$/.test(name) ? `O${name}` : name;
}

/** From the line that names it to its last. */
export function routineRange({ header, ranges }: Procedure, source: Source): Range {
  const first = header >= 0 ? header : (ranges[0]?.[0] ?? 0);
  const last = Math.max(first, ...ranges.map(([, behind]) => behind - 1));
  return {
    start: { line: first, character: 0 },
    end: { line: last, character: source.text.line(last).length },
  };
}

/** Of its name; of a main program without one, its beginning. */
export function routineNameRange(procedure: Procedure, source: Source): Range {
  if (procedure.place) return rangeOf(procedure.place);
  const { start } = routineRange(procedure, source);
  return { start, end: start };
}
