import { blockOf } from '../report/labelled.ts';
import { type Part, paragraph } from './richText.ts';

/** What a terminal shows as labelled lines, as parts of a page. `write` gives it without line breaks of its own. */
export function figureParts(write: (width: number) => string): Part[] {
  const { heading, rows, figures } = blockOf(write(Number.POSITIVE_INFINITY));
  return [
    paragraph(heading),
    { kind: 'table', head: ['', ''], rows, right: [] },
    ...(figures.length === 0 ? [] : [{ kind: 'figures', text: figures.join('\n') } as const]),
  ];
}
