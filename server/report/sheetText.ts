import { labelled } from './labelled.ts';
import type { Row, Sheet, Table, Tone } from './sheet.ts';
import { printable, type Style } from './style.ts';

/** A sheet for a terminal: labels in front, what is too long goes on under its beginning, tables as columns. */
export function sheetText({ name, about, rows, notes }: Sheet, style: Style, width: number): string {
  return [`${style.bold(printable(name))}  ${about}\n`, rowsText([...rows, ...notes], style, width)].join('');
}

export function rowsText(rows: readonly Row[], style: Style, width: number): string {
  return rows
    .map(({ label, text, tone, table }) => {
      const words = text === '' && label === '' ? '' : labelled(label, text, width, paintOf(tone, style));
      return table === null ? words : `${words}${tableText(table, style)}`;
    })
    .join('');
}

function tableText({ columns, rows }: Table, style: Style): string {
  const widths = columns.map((_, column) =>
    Math.max(...rows.map(({ cells }) => (cells[column] ?? '').length)),
  );
  return rows
    .map(({ cells, tone }) => {
      const set = columns.map(
        ({ before }, column) => `${before}${(cells[column] ?? '').padStart(widths[column] ?? 0)}`,
      );
      return `${paintOf(tone, style)(`${' '.repeat(8)}${set.join('  ').trimEnd()}`)}\n`;
    })
    .join('');
}

function paintOf(tone: Tone, style: Style): (text: string) => string {
  const paints: Readonly<Record<Tone, (text: string) => string>> = {
    plain: (text) => text,
    main: style.bold,
    good: style.green,
    warning: style.yellow,
    error: style.red,
    aside: style.dim,
  };
  return paints[tone];
}
