import { lookedAt, replaceUnknowns, type Value } from '../program/value.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import { failingSides, mixedSides } from './conditions.ts';
import { copyFlow, type Running, setMade } from './flowing.ts';
import { asksBeforeAnyTouch, asksStatus, goesTheSameWay } from './toldByTests.ts';

/** The test that parts two sides. */
export interface Test {
  readonly place: Place;
  /** In a subroutine whose caller is not known: what it reads before its own touches may be the caller's. */
  readonly openSubroutine: boolean;
}

/**
 * What flows to the two sides of a test, one flow where it tells nothing: the touches it looks at are tested, not in contact on the failing side, in contact on the other.
 */
export function sidesOf(
  value: Value,
  flow: Running,
  dialect: DialectName,
  test: Test,
): { readonly whenTrue: Running; readonly whenFalse: Running } {
  const failures = failingSides(value, flow, dialect);
  const looked = [...lookedAt(value)].sort((a, b) => a - b);
  for (const touch of looked) {
    const made = flow.made.get(touch);
    if (made) setMade(flow, touch, { ...made, tested: true, told: [], staleTest: null, arithmetic: null });
  }
  noteTest(value, looked, flow, test);
  const asks = asksStatus(value);
  const mixed = failures.length === 0 ? mixedSides(value, flow, dialect) : [];
  const whenTrue = flow;
  const whenFalse = failures.length + mixed.length === 0 && !asks ? flow : copyFlow(flow);
  // Both sides hold the touches as they were so far.
  if (whenFalse !== flow) flow.ownsMade = false;
  if (asks) for (const touch of looked) tellSides(touch, whenTrue, whenFalse, test.place);
  for (const { touch, side } of mixed)
    tellMixed(touch, side ? [whenFalse, whenTrue] : [whenTrue, whenFalse], test.place);
  for (const { touch, side } of failures) {
    const made = flow.made.get(touch);
    // What an earlier test has shown to be in contact stays so on both sides.
    if (!made || made.met) continue;
    const [failed, met] = side ? [whenTrue, whenFalse] : [whenFalse, whenTrue];
    setMade(met, touch, { ...made, met: true, told: [{ test: test.place, side: 'met' }] });
    setMade(failed, touch, { ...made, told: [{ test: test.place, side: 'failed' }] });
    arriveAtEnd(failed, touch);
    failed.contact = new Map([...failed.contact].filter(([t]) => t !== touch));
    if (met.contact.has(touch)) met.contact = new Map(met.contact).set(touch, 'met');
  }
  return { whenTrue, whenFalse };
}

/** A failure leads to one side for certain, and to the other one where the count has run out. */
function tellMixed(touch: number, [failed, other]: readonly [Running, Running], test: Place): void {
  const made = failed.made.get(touch);
  if (!made || made.met) return;
  setMade(failed, touch, { ...made, told: [{ test, side: 'failed' }] });
  setMade(other, touch, {
    ...made,
    told: [
      { test, side: 'failed' },
      { test, side: 'met' },
    ],
  });
}

function tellSides(touch: number, whenTrue: Running, whenFalse: Running, test: Place): void {
  const made = whenTrue.made.get(touch);
  if (!made || made.met) return;
  setMade(whenTrue, touch, { ...made, told: [{ test, side: 'true' }] });
  setMade(whenFalse, touch, { ...made, told: [{ test, side: 'false' }] });
  if (!whenTrue.contact.has(touch)) return;
  whenTrue.contact = new Map(whenTrue.contact).set(touch, 'if-true');
  whenFalse.contact = new Map(whenFalse.contact).set(touch, 'if-false');
}

/** Keeps in mind what the next touch leaves behind, and a test of an older touch that the last one should have had. */
function noteTest(value: Value, looked: readonly number[], flow: Running, test: Test): void {
  if (looked.length === 0 && (test.openSubroutine || !asksBeforeAnyTouch(value))) return;
  flow.lastTest = { place: test.place, touches: looked };
  const { success } = flow.state;
  for (const touch of typeof success === 'number' ? [] : lookedAt(success)) {
    const made = flow.made.get(touch);
    if (!made || made.tested) continue;
    const older = looked.filter((other) => goesTheSameWay(flow.made.get(other), made));
    if (older.length > 0) setMade(flow, touch, { ...made, staleTest: { place: test.place, touches: older } });
  }
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
