import type { DiameterUse } from '../analysis/model.ts';
import { replaced } from './lineEdits.ts';
import type { CheckContext, Fix } from './rule.ts';

/** Turns the + or − between the two halves of the place, which is the last of those that lie outermost; none where it shows none. */
export function signFix({ place }: DiameterUse, { analysis }: CheckContext): Fix[] {
  const { line, start, end } = place;
  const shown = analysis.source.text.line(line).slice(start, end);
  const only = [...shown.matchAll(/(?<=[\w\]>.]\s*)[+-]/g)].findLast(({ index }) =>
    isOutermost(shown, index),
  );
  if (!only) return [];
  const turned = only[0] === '+' ? '-' : '+';
  const at = start + only.index;
  return [
    {
      title: `Turn ${only[0]} into ${turned}`,
      edits: [replaced(line, { start: at, end: at + 1 }, turned)],
      changesMotion: true,
    },
  ];
}

/** No operation of the text lies further out of its brackets: a sign inside a root is none of the sum's. */
function isOutermost(text: string, at: number): boolean {
  const depth = (index: number) =>
    [...text.slice(0, index)].reduce((sum, c) => sum + (c === '[' ? 1 : c === ']' ? -1 : 0), 0);
  return [...text.matchAll(/[-+*/]/g)].every(({ index }) => depth(index) >= depth(at));
}
