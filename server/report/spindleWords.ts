import type { Touch } from '../analysis/model.ts';

/** Where the spindle stands at a touch, where the program turned it; null: as it was found. */
export function spindleWords({ spindle }: Touch): string | null {
  if (spindle.kind === 'as-found') return null;
  return spindle.kind === 'oriented'
    ? `${Number(spindle.degrees.toFixed(3))}°`
    : 'at an angle that is not known, and so are its lobes';
}
