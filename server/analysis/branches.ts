import { lookedAt, replaceUnknowns, type Value } from '../program/value.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { failingSides } from './conditions.ts';
import { copyFlow, type Running, setMade } from './flowing.ts';

/**
 * What flows to the two sides of a test, one flow where it tells nothing: the touches it looks at are tested, not in contact on the failing side, in contact on the other.
 */
export function sidesOf(
  value: Value,
  flow: Running,
  dialect: DialectName,
): { readonly whenTrue: Running; readonly whenFalse: Running } {
  const failures = failingSides(value, flow, dialect);
  for (const touch of lookedAt(value)) {
    const made = flow.made.get(touch);
    if (made) setMade(flow, touch, { ...made, tested: true, arithmetic: null });
  }
  const whenTrue = flow;
  const whenFalse = failures.length === 0 ? flow : copyFlow(flow);
  for (const { touch, side } of failures) {
    const made = flow.made.get(touch);
    // What an earlier test has shown to be in contact stays so on both sides.
    if (!made || made.met) continue;
    const [failed, met] = side ? [whenTrue, whenFalse] : [whenFalse, whenTrue];
    setMade(met, touch, { ...made, met: true });
    arriveAtEnd(failed, touch);
    failed.contact = new Map([...failed.contact].filter(([t]) => t !== touch));
    if (met.contact.has(touch)) met.contact = new Map(met.contact).set(touch, true);
  }
  return { whenTrue, whenFalse };
}

/** A touch that met nothing has come to the end of its travel: that is where its axes stand. */
function arriveAtEnd(flow: Running, touch: number): void {
  const made = flow.made.get(touch);
  if (!made) return;
  flow.state.position = flow.state.position.map((position) =>
    replaceUnknowns(position, (u) =>
      u.kind === 'stopped' && u.touch === touch ? (made.to[u.axis] ?? null) : null,
    ),
  );
}
