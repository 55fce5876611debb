import type { DiameterUse } from '../analysis/model.ts';
import { replaced } from './lineEdits.ts';
import type { CheckContext, Fix } from './rule.ts';

/** Turns the one + or − between the two halves of the place; none where it shows more than one, or none. */
export function signFix({ place }: DiameterUse, { analysis }: CheckContext): Fix[] {
  const { line, start, end } = place;
  const shown = analysis.source.text.line(line).slice(start, end);
  const signs = [...shown.matchAll(/(?<=[\w\]>.]\s*)[+-]/g)];
  const [only] = signs;
  if (!only || signs.length !== 1) return [];
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
