import type { Source } from '../syntax/source.ts';

/** How the blocks of a file are written: what is put into it is written alike. */
export interface FileStyle {
  /** Words in small letters. */
  readonly isLowerCase: boolean;
  /** N numbers in front of blocks: the next free one and the step; null: the blocks have none. */
  readonly numbers: { readonly next: number; readonly step: number } | null;
}

/** Blocks looked at for their style. */
const mostBlocks = 500;
/** Share of the blocks that makes a habit. */
const habit = 0.8;

export const plainStyle: FileStyle = { isLowerCase: false, numbers: null };

export function fileStyle(source: Source): FileStyle {
  const blocks: string[] = [];
  for (let line = 0; line < source.lineCount && blocks.length < mostBlocks; line++) {
    const code = codeOf(source.text.line(line));
    if (source.classOf(line) !== 0 && code !== '' && !/^[%:o]/i.test(code)) blocks.push(code);
  }
  if (blocks.length < 3) return plainStyle;
  const letters = blocks.join('').replace(/[^A-Za-z]/g, '');
  const small = letters.replace(/[A-Z]/g, '').length;
  return { isLowerCase: small > habit * letters.length, numbers: numbersOf(source, blocks) };
}

function numbersOf(source: Source, blocks: readonly string[]): FileStyle['numbers'] {
  const numbers = blocks.flatMap((code) => Number(/^\/?n\s*(\d+)/i.exec(code)?.[1] ?? Number.NaN));
  const given = numbers.filter((number) => !Number.isNaN(number));
  if (given.length < habit * blocks.length) return null;
  const steps = given.slice(1).map((number, i) => number - (given[i] ?? 0));
  const step = mostFrequent(steps.filter((each) => each > 0)) ?? 10;
  return { next: highest(source) + step, step };
}

/** The largest N number in the whole file. */
function highest(source: Source): number {
  let most = 0;
  for (let line = 0; line < source.lineCount; line++) {
    const [, number] = /^[\s/]*n\s*(\d+)/i.exec(source.text.line(line)) ?? [];
    if (number !== undefined) most = Math.max(most, Number(number));
  }
  return most;
}

function mostFrequent(numbers: readonly number[]): number | null {
  const counts = new Map<number, number>();
  for (const number of numbers) counts.set(number, (counts.get(number) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}

interface Fitting {
  readonly indent?: string;
  readonly digits?: number;
  /** Numbers that no line may get beside those that lines have already. */
  readonly taken?: ReadonlySet<number | string>;
}

/**
 * Lines of G-code in the style of a file, each behind `indent`. Comments stay as they are; so do lines that have an N number,
 * O-words and comments alone are not numbered, and nothing is where the numbers would get more than `digits` digits. No
 * number is given that a line has already: a jump to it would end elsewhere.
 */
export function inStyle(
  lines: readonly string[],
  style: FileStyle,
  { indent = '', digits = 5, taken = new Set() }: Fitting = {},
): string[] {
  const cased = style.isLowerCase ? lines.map(inSmallLetters) : lines;
  const counted = cased.filter(takesNumber).length;
  const own = new Set(cased.flatMap((line) => Number(ownNumber.exec(line)?.[1] ?? Number.NaN)));
  const numbers = style.numbers ? freeNumbers(style.numbers, counted, (n) => own.has(n) || taken.has(n)) : [];
  const fits = style.numbers !== null && String(numbers.at(-1) ?? 0).length <= digits;
  const letter = style.isLowerCase ? 'n' : 'N';
  return cased.map((line) =>
    fits && takesNumber(line)
      ? `${indent}${letter}${numbers.shift()} ${line.trimStart()}`
      : `${indent}${line}`,
  );
}

const ownNumber = /^\s*n\s*(\d+)/i;

function takesNumber(line: string): boolean {
  return !/^\s*(?:[no%(]|$)/i.test(line);
}

function freeNumbers(
  { next, step }: { readonly next: number; readonly step: number },
  count: number,
  isTaken: (number: number) => boolean,
): number[] {
  const numbers: number[] = [];
  for (let number = next; numbers.length < count; number += step) if (!isTaken(number)) numbers.push(number);
  return numbers;
}

function inSmallLetters(line: string): string {
  return line.replace(/\([^)]*\)|[^(]+/g, (part) => (part.startsWith('(') ? part : part.toLowerCase()));
}

function codeOf(line: string): string {
  return line.replace(/\([^)]*\)?|;.*|<[^>]*>/g, '').trim();
}
