import type { Touch } from './model.ts';
import type { Record, WrittenDeparture } from './record.ts';

/**
 * What comes next after a guarded move that nothing has tested: a motion on or along what it may have stopped at. A move
 * away does no harm. A touch alarms where it starts tripped (NISTIR 6556, 4.3.6.6), but a skip move that measures takes
 * where it stands for its own surface (common practice, no source).
 */
export function unguardedMoves(record: Record, touches: ReadonlyMap<number, Touch>): WrittenDeparture[] {
  const isGuarded = (id: number) => {
    const touch = touches.get(id);
    return touch !== undefined && !touch.alarms && !touch.away && !record.coordinatesUsed.has(id);
  };
  const goesWrong = (by: number | null) =>
    by === null || (touches.get(by)?.code === 'G31' && record.coordinatesUsed.has(by));
  return record.departures.filter(
    ({ touch, kind, contact, isRelied, by }) =>
      isRelied &&
      contact !== 'met' &&
      (kind === 'further-in' || kind === 'sideways') &&
      isGuarded(touch) &&
      goesWrong(by),
  );
}
