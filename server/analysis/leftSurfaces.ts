import type { Contact } from './flowing.ts';
import type { Departure } from './model.ts';
import type { Record, WrittenDeparture } from './record.ts';

/**
 * The departures that may leave a surface. A status does not say which of its two sides is the one where nothing was met:
 * it is the side of an alarm, where one alone ends in one; else nothing is known against a side while the other one
 * leaves the surface.
 */
export function leftSurfaces(record: Record): readonly WrittenDeparture[] {
  const bySide = record.departures.filter(({ contact }) => isSide(contact));
  if (bySide.length === 0) return record.departures;
  const key = (touch: number, side: string) => `${touch}:${side}`;
  const alarms = new Set(
    record.alarms.flatMap(({ touch, side, isLast }) => (isLast ? [key(touch, `if-${side}`)] : [])),
  );
  const leaving = new Set(
    bySide.filter(({ kind }) => !staying.includes(kind)).map(({ touch, contact }) => key(touch, contact)),
  );
  return record.departures.filter(({ touch, contact, kind }) => {
    if (!isSide(contact)) return true;
    const [own, other] = [key(touch, contact), key(touch, others[contact])];
    if (alarms.has(own) !== alarms.has(other)) return alarms.has(other);
    return !staying.includes(kind) || !leaving.has(other);
  });
}

type Side = Extract<Contact, `if-${string}`>;

const others: Readonly<globalThis.Record<Side, Side>> = { 'if-true': 'if-false', 'if-false': 'if-true' };

function isSide(contact: Contact): contact is Side {
  return contact in others;
}

/** What leaves the tip on the surface. */
const staying: readonly Departure['kind'][] = [
  'further-in',
  'sideways',
  'touch-again',
  'touch-back',
  'tool-change',
  'program-end',
];
