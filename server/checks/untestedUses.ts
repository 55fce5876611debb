import type { StaleTest, UntestedUse } from '../analysis/model.ts';
import type { CheckContext } from './rule.ts';
import { blockKey } from './touchFaults.ts';

/** The untested uses of one touching block, one for each place, in the order of the text. */
export interface UntestedTouch {
  readonly uses: readonly UntestedUse[];
  /** A test that should have looked at the touch: then that is the fault. */
  readonly staleTest: StaleTest | null;
}

/** Every touching block whose result is used untested, in the order in which they were found. */
export function untestedTouches({ analysis }: CheckContext): UntestedTouch[] {
  const groups = new Map<string, UntestedUse[]>();
  for (const use of analysis.untestedUses) {
    const key = blockKey(use.touch);
    const group = groups.get(key) ?? [];
    groups.set(key, group);
    if (!group.some(({ place }) => place.line === use.place.line && place.start === use.place.start))
      group.push(use);
  }
  return [...groups.values()].map((group) => ({
    uses: group.sort((a, b) => a.place.line - b.place.line),
    staleTest: group.find(({ staleTest }) => staleTest !== null)?.staleTest ?? null,
  }));
}
