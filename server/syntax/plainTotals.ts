/** Bit of a letter in `PlainTotals.letters`. */
export function letterBit(letter: string): number {
  return 1 << letterIndex(letter);
}

/** 0 for A, 25 for Z. */
export function letterIndex(letter: string): number {
  return letter.charCodeAt(0) - 65;
}

/**
 * What some plain lines leave behind: by letter (0 is A, 25 Z) the last value, and the sum of all values of the axis
 * letters. Sums are kept in two parts, the rounded sum and what rounding lost, so that their total does not depend on
 * how the lines were cut into pieces. Values of letters that were not met mean nothing.
 */
export class PlainTotals {
  /** Bit of each letter that was met; see `letterBit`. */
  letters = 0;
  /** Line of the last F word, counted from where the lines began; -1 for none. */
  feedLine = -1;
  readonly last = new Float64Array(26);
  readonly rounded = new Float64Array(26);
  readonly lost = new Float64Array(26);

  sum(letter: number): number {
    return (this.rounded[letter] as number) + (this.lost[letter] as number);
  }

  /** Takes in the lines that follow, of which the first is the `line`th here. */
  add(next: PlainTotals, line: number): void {
    this.letters |= next.letters;
    if (next.feedLine >= 0) this.feedLine = line + next.feedLine;
    for (let rest = next.letters; rest !== 0; rest &= rest - 1) {
      const letter = 31 - Math.clz32(rest & -rest);
      this.last[letter] = next.last[letter] as number;
      const sum = this.rounded[letter] as number;
      const added = next.rounded[letter] as number;
      const rounded = sum + added;
      const part = rounded - sum;
      this.rounded[letter] = rounded;
      this.lost[letter] =
        (this.lost[letter] as number) +
        (next.lost[letter] as number) +
        (sum - (rounded - part) + (added - part));
    }
  }

  clear(): void {
    this.letters = 0;
    this.feedLine = -1;
    this.rounded.fill(0);
    this.lost.fill(0);
  }
}
