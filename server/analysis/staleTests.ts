import type { StaleTest, Touch } from './model.ts';
import type { Record, WrittenUntested } from './record.ts';

/**
 * The test that should have looked at an untested touch. One of a touch the same way counts only where nothing else uses
 * the result of that one: else it has its own test, and the later touch has none.
 */
export function staleTestOf(
  { touch, staleTest }: WrittenUntested,
  record: Record,
  touches: ReadonlyMap<number, Touch>,
): StaleTest | null {
  if (staleTest === null) return null;
  const { place } = staleTest;
  if (staleTest.touches.length === 0) return { place, sees: null };
  const seen = staleTest.touches.find((other) => other === touch || !record.coordinatesUsed.has(other));
  const sees = seen === undefined ? undefined : touches.get(seen);
  return sees ? { place, sees } : null;
}
