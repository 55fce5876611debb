export type Units = 'mm' | 'inch';

/** Lengths, errors and feeds as a person in that shop reads them. */
export interface Quantities {
  readonly units: Units;
  /** mm → "2.993 mm", "0.1178 in". */
  length(mm: number): string;
  /** An error, unsigned: mm → "6.9 µm", "0.00027 in" (a tenth of 0.0001 in is the last digit). */
  error(mm: number): string;
  /** An error with its sign. */
  signedError(mm: number): string;
  /** A tolerance, rounded up: "±0.058 mm", "±0.0023 in". */
  tolerance(mm: number): string;
  /** mm/min → "40 mm/min", "1.6 in/min". */
  feed(mmPerMinute: number): string;
}

export function quantities(units: Units): Quantities {
  const error = units === 'mm' ? micrometres : tenThousandths;
  return {
    units,
    length: (mm) => (units === 'mm' ? `${fixed(mm, 3)} mm` : `${fixed(mm / inch, 4)} in`),
    error: (mm) => error(Math.abs(mm)),
    signedError: (mm) => {
      const text = error(Math.abs(mm));
      return /[1-9]/.test(text) ? `${mm < 0 ? '−' : '+'}${text}` : text;
    },
    tolerance: (mm) =>
      units === 'mm'
        ? `±${fixed(roundedUp(mm, 1000), 3)} mm`
        : `±${fixed(roundedUp(mm / inch, 10_000), 4)} in`,
    feed: (value) => (units === 'mm' ? `${trimmed(value, 1)} mm/min` : `${trimmed(value / inch, 2)} in/min`),
  };
}

/** mm in an inch, by definition. */
const inch = 25.4;

function micrometres(mm: number): string {
  const value = mm * 1000;
  return `${fixed(value, value < 99.95 ? 1 : 0)} µm`;
}

function tenThousandths(mm: number): string {
  const value = mm / inch;
  return `${fixed(value, value < 0.00995 ? 5 : 4)} in`;
}

/** The small term keeps 10·5.7 µm, which is 57.00000000000001, from becoming 58. */
function roundedUp(value: number, steps: number): number {
  return Math.ceil(value * steps - 1e-6) / steps;
}

function fixed(value: number, decimals: number): string {
  return value.toFixed(decimals).replace('-', '−');
}

function trimmed(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)));
}
