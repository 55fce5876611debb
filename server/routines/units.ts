import type { Units } from './routine.ts';

/** A length or feed of the motion (mm, mm/min) as a number in these units, rounded as far as any control reads. */
export function inUnits(mm: number, units: Units): number {
  const value = units === 'inch' ? mm / 25.4 : mm;
  return withoutNegativeZero(Number(value.toFixed(units === 'inch' ? 5 : 4)));
}

export function toMillimetres(value: number, units: Units): number {
  return units === 'inch' ? value * 25.4 : value;
}

/** A usual value for a form: as short as a person would write it. */
export function shortened(mm: number, units: Units): number {
  if (units === 'mm') return Number(mm.toFixed(2));
  const inch = mm / 25.4;
  return Number(inch.toFixed(Math.abs(inch) >= 0.1 ? 2 : 4));
}

/** A limit, rounded inwards so that the rounded one keeps it. */
export function limit(mm: number, units: Units, which: 'least' | 'greatest'): number {
  const decimals = units === 'inch' ? 4 : 3;
  const scaled = (units === 'inch' ? mm / 25.4 : mm) * 10 ** decimals;
  const whole = which === 'least' ? Math.ceil(scaled - 1e-6) : Math.floor(scaled + 1e-6);
  return Number((whole / 10 ** decimals).toFixed(decimals));
}

/** In words: "15 mm", "0.6 in". */
export function sayLength(mm: number, units: Units): string {
  return units === 'inch' ? `${Number((mm / 25.4).toFixed(3))} in` : `${Number(mm.toFixed(2))} mm`;
}

export function sayFeed(feed: number, units: Units): string {
  return units === 'inch' ? `${inUnitsFeed(feed, units)} in/min` : `${inUnitsFeed(feed, units)} mm/min`;
}

/** A feed as it is programmed. */
export function inUnitsFeed(feed: number, units: Units): number {
  return units === 'inch' ? Number((feed / 25.4).toFixed(3)) : Number(feed.toFixed(2));
}

export function unitOf(type: string, units: Units): string | null {
  if (type === 'length') return units === 'inch' ? 'in' : 'mm';
  if (type === 'feed') return units === 'inch' ? 'in/min' : 'mm/min';
  return type === 'angle' ? '°' : null;
}

function withoutNegativeZero(value: number): number {
  return value === 0 ? 0 : value;
}
