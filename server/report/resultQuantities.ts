import type { ResultUnit } from '../analysis/unitOf.ts';
import type { Quantities } from './quantities.ts';

/** As a person reads the errors of a value that may be an angle; lengths and feeds stay. */
export function resultQuantities(unit: ResultUnit, show: Quantities): Quantities {
  if (unit === 'mm') return show;
  const error = (size: number) => `${Number(Math.abs(size).toPrecision(2))}°`;
  return {
    ...show,
    error,
    signedError: (size) => (Math.abs(size) < 1e-12 ? '0°' : `${size < 0 ? '−' : '+'}${error(size)}`),
    tolerance: (size) => `±${upToTwoDigits(Math.abs(size))}°`,
  };
}

function upToTwoDigits(size: number): number {
  if (size === 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(size)) - 1);
  return Number((Math.ceil(size / step - 1e-6) * step).toPrecision(2));
}
