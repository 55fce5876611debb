import type { JoinedProgram } from './joinedProgram.ts';
import type { PlaceLeftOut, PositionTest, StaleRead, Touch } from './model.ts';
import type { PlacesNow } from './placesNow.ts';
import type { PositionTestWritten } from './positionTests.ts';
import type { PlaceLeftOut as PlaceLeftOutWritten, StaleReadWritten } from './record.ts';

/** Those of the program itself, once for each place, in the order of the text. */
export function staleReadsHere(
  written: readonly StaleReadWritten[],
  touches: ReadonlyMap<number, Touch>,
  now: PlacesNow,
  program: JoinedProgram,
): readonly StaleRead[] {
  const found = new Map<string, StaleRead>();
  for (const { touch: id, axis: index, place: named, since } of written) {
    const place = now.place(named);
    const [touch, axis] = [touches.get(id), axisNames[index]];
    const key = `${place.line}:${place.start}`;
    if (!touch || !axis || found.has(key) || program.elsewhere(place.line) !== null) continue;
    if (since.kind !== 'another-touch') found.set(key, { touch, axis, place, since });
    else {
      const earlier = touches.get(since.earlier);
      if (earlier) found.set(key, { touch, axis, place, since: { ...since, earlier } });
    }
  }
  return [...found.values()].sort((a, b) => a.place.line - b.place.line || a.place.start - b.place.start);
}

/** Tests in the program itself, in the order of the text. */
export function positionTestsHere(
  written: readonly PositionTestWritten[],
  touches: ReadonlyMap<number, Touch>,
  now: PlacesNow,
  program: JoinedProgram,
): readonly PositionTest[] {
  const tests = written.flatMap(({ touch: id, axis: index, place: named, sign, ...test }): PositionTest[] => {
    const place = now.place(named);
    const [touch, axis] = [touches.get(id), axisNames[index]];
    if (!touch || !axis || program.elsewhere(place.line) !== null) return [];
    const towards = sign !== null && touch.away ? (sign === 1 ? -1 : 1) : sign;
    return [{ ...test, touch, axis, place, towards }];
  });
  return tests.sort((a, b) => a.place.line - b.place.line || a.place.start - b.place.start);
}

/** Writes in the program itself, once for each place, in the order of the text. */
export function placesLeftOutHere(
  written: readonly PlaceLeftOutWritten[],
  touches: ReadonlyMap<number, Touch>,
  now: PlacesNow,
  program: JoinedProgram,
): readonly PlaceLeftOut[] {
  const found = new Map<string, PlaceLeftOut>();
  for (const { touches: ids, axis: index, place: named } of written) {
    const place = now.place(named);
    const key = `${place.line}:${place.start}`;
    const axis = axisNames[index];
    const those = ids.flatMap((id) => touches.get(id) ?? []);
    if (axis && !found.has(key) && program.elsewhere(place.line) === null)
      found.set(key, { place, axis, touches: those });
  }
  return [...found.values()].sort((a, b) => a.place.line - b.place.line || a.place.start - b.place.start);
}

const axisNames = ['x', 'y', 'z', 'a', 'b', 'c'] as const;
