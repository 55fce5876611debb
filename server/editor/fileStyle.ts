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

/**
 * Lines of G-code in the style of a file, each behind `indent`. Comments stay as they are; so do lines that have an N number,
 * O-words and comments alone are not numbered, and nothing is where the numbers would get more than `digits` digits.
 */
export function inStyle(
  lines: readonly string[],
  style: FileStyle,
  { indent = '', digits = 5 }: { readonly indent?: string; readonly digits?: number } = {},
): string[] {
  let next = style.numbers?.next ?? 0;
  const step = style.numbers?.step ?? 0;
  const fits = String(next + step * lines.length).length <= digits;
  return lines.map((line) => {
    const text = style.isLowerCase ? inSmallLetters(line) : line;
    if (!style.numbers || !fits || /^\s*(?:[no%(]|$)/i.test(text)) return `${indent}${text}`;
    const numbered = `${indent}${style.isLowerCase ? 'n' : 'N'}${next} ${text.trimStart()}`;
    next += step;
    return numbered;
  });
}

function inSmallLetters(line: string): string {
  return line.replace(/\([^)]*\)|[^(]+/g, (part) => (part.startsWith('(') ? part : part.toLowerCase()));
}

function codeOf(line: string): string {
  return line.replace(/\([^)]*\)?|;.*|<[^>]*>/g, '').trim();
}
