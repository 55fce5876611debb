import type { Units } from './quantities.ts';

/** A calibrated length: mm → "3.9604 mm", "0.15592 in". */
export function fineLength(mm: number, units: Units): string {
  const text = units === 'mm' ? `${mm.toFixed(4)} mm` : `${(mm / 25.4).toFixed(5)} in`;
  return text.replace('-', '−');
}
