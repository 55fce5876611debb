/** Bit of a letter in `PlainTotals.letters`. */
export function letterBit(letter: string): number {
  return 1 << letterIndex(letter);
}

/** 0 for A, 25 for Z. */
export function letterIndex(letter: string): number {
  return letter.charCodeAt(0) - 65;
}

/** Where the rows of `PlainTotals.values` begin. */
export const sums = 26;
export const losses = 52;
export const totalsLength = 78;

/**
 * What some plain lines leave behind: by letter (0 is A, 25 Z) the last value, and the sum of all values of the axis
 * letters. Sums are kept in two parts, the rounded sum and what rounding lost, so that their total does not depend on
 * how the lines were cut into pieces. Values of letters that were not met mean nothing.
 */
export class PlainTotals {
  /** Bit of each letter that was met; see `letterBit`. */
  letters = 0;
  /** Sums were made too; without, who needs them reads the lines again. */
  summed = true;
  /** Line of the last F word, counted from where the lines began; -1 for none. */
  feedLine = -1;
  /** Where the word stands in its line. */
  feedStart = 0;
  feedEnd = 0;
  /** Three rows of 26: last values, rounded sums, what was lost. */
  readonly values: Float64Array;

  /** @param values `totalsLength` zeros */
  constructor(values: Float64Array = new Float64Array(totalsLength)) {
    this.values = values;
  }

  last(letter: number): number {
    return this.values[letter] as number;
  }

  /** @throws {RangeError} they were not `summed` */
  sum(letter: number): number {
    if (!this.summed) throw new RangeError('No sums were made of these lines.');
    return (this.values[sums + letter] as number) + (this.values[losses + letter] as number);
  }

  /** Takes in the lines that follow, of which the first is the `line`th here. */
  add(next: PlainTotals, line: number): void {
    const { values } = this;
    this.letters |= next.letters;
    this.summed &&= next.summed;
    if (next.feedLine >= 0) this.noteFeed(line + next.feedLine, next.feedStart, next.feedEnd);
    for (let rest = next.letters; rest !== 0; rest &= rest - 1) {
      const letter = 31 - Math.clz32(rest & -rest);
      values[letter] = next.values[letter] as number;
      if (!this.summed) continue;
      const sum = values[sums + letter] as number;
      const added = next.values[sums + letter] as number;
      const rounded = sum + added;
      const part = rounded - sum;
      const lost = sum - (rounded - part) + (added - part);
      values[sums + letter] = rounded;
      values[losses + letter] =
        (values[losses + letter] as number) + (next.values[losses + letter] as number) + lost;
    }
  }

  noteFeed(line: number, start: number, end: number): void {
    this.feedLine = line;
    this.feedStart = start;
    this.feedEnd = end;
  }

  clear(): void {
    this.letters = 0;
    this.summed = true;
    this.feedLine = -1;
    this.values.fill(0);
  }
}
