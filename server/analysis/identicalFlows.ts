import type { State } from '../program/state.ts';
import type { Flowing, Running } from './flowing.ts';

/** Whether two flows are alike in everything, places too: what runs on from one does the same as from the other. */
export function identicalFlows(a: Flowing, b: Flowing): boolean {
  return (
    a === b ||
    (identicalStates(a.state, b.state) &&
      identical(a.contact, b.contact) &&
      identical(a.made, b.made) &&
      identical(a.lastTest, b.lastTest) &&
      identical(a.latch, b.latch))
  );
}

/**
 * Takes over from an earlier flow whatever is the same in a later one, so that both hold it once; gives the earlier one
 * where all is. Nobody may change the flow any more.
 */
export function shareWith(earlier: Flowing, flow: Running): Flowing {
  const before = earlier.state as unknown as Readonly<Record<string, unknown>>;
  const state = flow.state as unknown as Record<string, unknown>;
  let same = true;
  for (const part in before) {
    if (part === 'owned' || before[part] === state[part]) continue;
    if (identical(before[part], state[part])) state[part] = before[part];
    else same = false;
  }
  if (identical(earlier.contact, flow.contact)) flow.contact = earlier.contact;
  if (identical(earlier.made, flow.made)) flow.made = earlier.made;
  if (identical(earlier.lastTest, flow.lastTest)) flow.lastTest = earlier.lastTest;
  if (identical(earlier.latch, flow.latch)) flow.latch = earlier.latch;
  const sameTouches = flow.contact === earlier.contact && flow.made === earlier.made;
  const sameLast = flow.lastTest === earlier.lastTest && flow.latch === earlier.latch;
  if (same && sameTouches && sameLast) return earlier;
  flow.state.owned = { locals: false, globals: false };
  flow.ownsMade = false;
  return flow;
}

/** `owned` says how a state is held, not what holds. */
function identicalStates(a: State, b: State): boolean {
  for (const part of Object.keys(a) as (keyof State)[])
    if (part !== 'owned' && !identical(a[part], b[part])) return false;
  return true;
}

/** Plain data, lists and maps, these in the same order: of what grows too long the first ones are dropped. */
function identical(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) return Array.isArray(b) && identicalLists(a, b);
  if (a instanceof Map) return b instanceof Map && identicalMaps(a, b);
  const [one, other] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  // Most values that differ do so in their key.
  if (typeof one.key === 'string' && one.key !== other.key) return false;
  for (const part in one) if (!identical(one[part], other[part])) return false;
  return true;
}

function identicalLists(a: readonly unknown[], b: readonly unknown[]): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!identical(a[i], b[i])) return false;
  return true;
}

function identicalMaps(a: ReadonlyMap<unknown, unknown>, b: ReadonlyMap<unknown, unknown>): boolean {
  if (a.size !== b.size) return false;
  const others = b.entries();
  for (const [key, value] of a) {
    const other = others.next().value;
    if (!other || !Object.is(other[0], key) || !identical(value, other[1])) return false;
  }
  return true;
}
