import type { Row, Sheet, Table } from '../report/sheet.ts';
import { type Part, paragraph } from './richText.ts';

/** A sheet as parts of a page: its rows as a table, tables of its rows after it, then what has to be known beside them. */
export function sheetParts({ name, about, rows, notes }: Sheet): Part[] {
  return [
    paragraph(about === '' ? name : `${name}, ${about}`),
    ...rowParts(rows),
    ...(notes.length === 0 ? [] : [{ kind: 'list', items: notes.map(noteText) } as const]),
  ];
}

export function rowParts(rows: readonly Row[]): Part[] {
  const tables = rows.flatMap(({ label, text, table }) =>
    table === null ? [] : [...(text === '' ? [] : [paragraph(`**${label}**: ${text}`)]), tablePart(table)],
  );
  const plain = rows
    .map((each, index) => ({ ...each, label: labelOf(rows, index) }))
    .filter(({ table }) => table === null)
    .map(({ label, text }) => [label, inCell(text)]);
  const whole: Part = { kind: 'table', head: ['Property', 'Value'], rows: plain, right: [] };
  return plain.length === 0 ? tables : [whole, ...tables];
}

/** What goes on under an empty label belongs to the last one. */
function labelOf(rows: readonly Row[], index: number): string {
  return rows.slice(0, index + 1).findLast(({ label }) => label !== '')?.label ?? '';
}

function tablePart({ columns, rows }: Table): Part {
  return {
    kind: 'table',
    head: columns.map(({ head }) => head),
    rows: rows.map(({ cells, tone }) =>
      cells.map((cell) => (tone === 'warning' && cell !== '' ? `**${cell}**` : cell)),
    ),
    right: columns.map((_, index) => index),
  };
}

function noteText({ label, text, tone }: Row): string {
  return tone === 'aside' ? text : `**${label}**: ${text}`;
}

/** A cell has one line. */
function inCell(text: string): string {
  return text.replaceAll('\n', '; ');
}
