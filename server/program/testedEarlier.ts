import type { Unknown, Value } from './value.ts';

/** Begins the keys of what rests on touches that an earlier pass of a loop had made, and tested. */
export const testedEarlier = 'tested-earlier:';

/** A value rests on the touch as it was made last, or as an earlier pass of a loop made it that nothing had tested. */
export function restsOnUntested(value: Value, touch: number): boolean {
  return someCoordinate(value, (unknown) =>
    unknown.kind === 'given' ? unknown.touches.includes(touch) : unknown.touch === touch,
  );
}

/** All touches that a value rests on were made by an earlier pass, and tested. */
export function isTestedEarlier(value: Value): boolean {
  return !someCoordinate(value, (unknown) => unknown.kind !== 'given' || unknown.touches.length > 0);
}

type Coordinate = Extract<Unknown, { kind: 'given' | 'latched' | 'stopped' }>;

/** Leaves out those that an earlier pass has tested. */
function someCoordinate(value: Value, holds: (unknown: Coordinate) => boolean): boolean {
  if (typeof value === 'number') return false;
  return value.terms.some(({ unknown }) => {
    switch (unknown.kind) {
      case 'computed':
        return unknown.operands.some((each) => someCoordinate(each, holds));
      case 'given':
        return !unknown.key.startsWith(`g:${testedEarlier}`) && holds(unknown);
      case 'latched':
      case 'stopped':
        return holds(unknown);
      default:
        return false;
    }
  });
}
