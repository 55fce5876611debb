import { proceduresOf } from '../analysis/procedures.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import { blockNumbers, procedureHolds } from './names.ts';

export interface JumpTarget {
  readonly number: number;
  /** Of the N word. */
  readonly place: Place;
}

/** The N numbers that a GOTO of the same program names, in order. */
export function jumpTargets(source: Source): JumpTarget[] {
  if (!source.dialect.macroFlow) return [];
  const { all } = proceduresOf(source);
  const jumps = [...source.otherLines()].flatMap((line) =>
    [...blockNumbers(source, line)].flatMap(({ number, isTarget }) => (isTarget ? [] : { line, number })),
  );
  const found: JumpTarget[] = [];
  for (const procedure of all) {
    const wanted = new Set(
      jumps.filter(({ line }) => procedureHolds(procedure, line)).map(({ number }) => number),
    );
    if (wanted.size === 0) continue;
    for (const [from, to] of procedure.ranges)
      for (let line = from; line < to; line++) {
        const number = writtenNumber.exec(source.text.line(line))?.[1];
        if (number === undefined || !wanted.has(Number(number.replace(/\s/g, '')))) continue;
        const label = source.block(line).lineNumber;
        if (label?.value !== undefined && label.value !== null)
          found.push({ number: label.value, place: { line, start: label.start, end: label.end } });
      }
  }
  return found;
}

const writtenNumber = /^[\s/]*\d?\s*n\s*(\d[\d \t]*)/i;
