import type { Analysis } from '../analysis/analysis.ts';
import type { Modes } from '../analysis/model.ts';

/** Modes that an alarm under these would leave behind, and what every regular end of the program leaves instead. */
export function modesLeftByAlarm(
  modes: Modes,
  { handovers }: Analysis,
): { readonly left: string; readonly usual: string }[] {
  const ends = handovers.filter((each) => each.kind === 'program-end' || each.openSubroutine);
  return groups.flatMap((group) => changeOf(group, modes, ends));
}

const groups = ['distance', 'units', 'plane', 'feedMode'] as const;

function changeOf(
  group: (typeof groups)[number],
  modes: Modes,
  ends: readonly { readonly after: Modes }[],
): { readonly left: string; readonly usual: string }[] {
  const left = onlyOne(modes[group]);
  // Where positions are taken for positions, no next program is led astray.
  if (left === 'G90') return [];
  const all = new Set(ends.map(({ after }) => onlyOne(after[group])));
  const [usual] = all;
  return left && usual && all.size === 1 && left !== usual ? [{ left, usual }] : [];
}

function onlyOne(codes: readonly string[]): string | null {
  const [code] = codes;
  return codes.length === 1 && code && code !== 'unset' && code !== 'unknown' ? code : null;
}
