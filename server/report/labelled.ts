import { wrap } from './wrap.ts';

const indent = 8;
const labelWidth = 18;

/** A line `label  text` of a block; what is too long goes on under its beginning. `paint` colours each line of it. */
export function labelled(
  label: string,
  text: string,
  width: number,
  paint: (text: string) => string = (plain) => plain,
): string {
  return wrap(text, Math.max(30, width - indent - labelWidth))
    .map(
      (line, index) =>
        `${' '.repeat(indent)}${(index === 0 ? label : '').padEnd(labelWidth)}${paint(line)}\n`,
    )
    .join('');
}

/** A block of labelled lines that were not wrapped, taken apart again for a page that sets lines itself. */
export interface Block {
  /** In front of them. */
  readonly heading: string;
  readonly rows: readonly (readonly [label: string, text: string])[];
  /** Lines with no label, such as a touch each, under the row that they stand behind. */
  readonly figures: readonly string[];
}

/** @param text what was written with an unbounded width and no colour */
export function blockOf(text: string): Block {
  const rows: [string, string][] = [];
  const figures: string[] = [];
  const heading: string[] = [];
  for (const line of text.split('\n')) {
    if (line.trim() === '') continue;
    const label = line.slice(indent, indent + labelWidth).trim();
    if (!line.startsWith(' '.repeat(indent))) heading.push(line.replace(/ {2,}/g, ', '));
    else if (/^(\d+|line +\d+) {2,}/.test(line.trim())) figures.push(line.trim());
    else rows.push([label, line.slice(indent + labelWidth)]);
  }
  return { heading: heading.join(' '), rows, figures };
}
