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
  return grouped(analysis.untestedUses, ({ touch }) => blockKey(touch));
}

/** The same for the touches of called files, by the calls in the program that lead to them. */
export function untestedBehindCalls({ analysis }: CheckContext): UntestedTouch[] {
  return grouped(analysis.elsewhere.untestedUses, ({ touch }) => `${touch.calls.at(-1)}`);
}

function grouped(uses: readonly UntestedUse[], keyOf: (use: UntestedUse) => string): UntestedTouch[] {
  const groups = new Map<string, UntestedUse[]>();
  for (const use of uses) {
    const key = keyOf(use);
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
