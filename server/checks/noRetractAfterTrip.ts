import type { Departure } from '../analysis/model.ts';
import { lineName } from './blockFacts.ts';
import { lengthText, readerUnit, type Unit } from './quantity.ts';
import { retractFix } from './retractFix.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { callAt } from './touchFaults.ts';

type FaultKind = 'further-in' | 'sideways' | 'touch-again' | 'touch-back' | 'tool-change' | 'program-end';

export const noRetractAfterTrip: Rule = {
  id: 'no-retract-after-trip',
  severity: 'error',
  title: 'the tip is not taken off the surface after a touch',
  what: 'After a touch the tip rests on the surface, a little past where the probe tripped. On some path of the program the next motion goes further in, sideways, to another feature or into another touch in the same direction (in rs274ngc in any: none may start with the probe tripped), or the program ends or changes the tool, and nothing has moved the tip off first. A return from a subroutine is followed into its callers; where nobody in the file calls it, the rule is quiet. For a touch in a called file it speaks at the call. A move with a component against the approach counts as a retract, and so do a move in machine coordinates along its axis, a touch that moves away, and passing through with G38.4.',
  why: 'The stylus is pushed past its overtravel or dragged along the surface: it bends or breaks, or the probe does not come back to its seat and the next touches are wrong. A second touch that starts with the probe tripped raises an alarm, or latches where it stands.',
  instead:
    'Move back against the approach, by more than the stopping distance, the pre-travel and what the probe needs to reseat, before anything else.',
  source:
    'common practice, no source; that a probe move must not start with the probe tripped: NISTIR 6556, 4.3.6.6',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G91
G38.2 X20 F40
#<_wall> = #5061
G0 Z10 (the lift stands here, but the tip still rests on the wall)
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G91 G94
G31 Z-15. F40.
IF[#1005EQ0]GOTO9 (the probe's input)
#5223=#5223+#5063
G0 X30. (to the next feature, the tip still on the surface)
M30
N9 #3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G91
G38.2 X20 F40
#<_wall> = #5061
G0 X-2 (off the wall)
G0 Z10
M2
`,
    },
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
o<down> sub
  G91 G38.2 Z-15 F40
  G90
o<down> endsub
o<down> call
G53 G0 Z0 (up in machine coordinates)
M2
`,
    },
  ],
  *check(context) {
    // Where the flow doesn't fit together, the end that a path comes to is a guess.
    const endsKnown = context.analysis.flowFaults.length === 0;
    for (const departures of byTouch(context)) {
      const faults = departures.filter(isFault).filter(({ kind }) => kind !== 'program-end' || endsKnown);
      const [first] = faults;
      if (first) yield report(first, faults, departures, context);
    }
    for (const departures of byCall(context)) {
      const faults = departures.filter(isFault).filter(({ kind }) => kind !== 'program-end' || endsKnown);
      const [first] = faults;
      if (first) yield reportAtCall(first, faults, context);
    }
  },
};

function report(
  first: Departure & { kind: FaultKind },
  faults: readonly Departure[],
  departures: readonly Departure[],
  context: CheckContext,
): Report {
  const unit = readerUnit(first.touch.modes, context.profile);
  const fix = faults.length === departures.length ? retractFix(departures, context) : null;
  return {
    message: `After this touch the tip still rests on the surface, and ${consequences[first.kind](first, unit)}.`,
    place: first.touch.place,
    related: unique(faults.map(({ place }) => place)).map((place) => ({
      message: comesNext,
      place,
    })),
    fixes: fix ? [fix] : [],
  };
}

/** A touch of a called file, which its own file can't tell of: what is wrong comes behind the call. */
function reportAtCall(
  first: Departure & { kind: FaultKind },
  faults: readonly Departure[],
  { analysis, profile }: CheckContext,
): Report {
  const { touch } = first;
  const unit = readerUnit(touch.modes, profile);
  const line = touch.calls.at(-1) ?? first.place.line;
  return {
    message: `Behind this call the tip still rests on the surface of the touch in ${lineName(touch.line)} of the called file, and ${consequences[first.kind](first, unit)}.`,
    place: callAt(analysis, line),
    related: unique(faults.map(({ place }) => place)).map((place) => ({ message: comesNext, place })),
  };
}

const comesNext = 'what comes next, with the tip still on the surface';

const consequences: Readonly<Record<FaultKind, (next: Departure, unit: Unit) => string>> = {
  'further-in': ({ place, component }, unit) =>
    `the next move (${lineName(place.line)}) goes ${component ? `${lengthText(component, unit)} ` : ''}further in: the stylus is pushed past its overtravel`,
  sideways: ({ place }) =>
    `the next move (${lineName(place.line)}) drags it along the surface: the stylus bends and the probe may not reseat`,
  'touch-again': ({ place }) =>
    `the next touch (${lineName(place.line)}) goes the same way with the probe still tripped: an alarm, or a latch where it stands`,
  'touch-back': ({ place }) =>
    `the next touch (${lineName(place.line)}) starts with the probe still tripped: an alarm before it moves`,
  'tool-change': ({ place }) => `the tool change (${lineName(place.line)}) moves off with it there`,
  'program-end': ({ place }) =>
    `the program ends there (${lineName(place.line)}): whatever moves next drags it along`,
};

function isFault(departure: Departure): departure is Departure & { kind: FaultKind } {
  return departure.kind in consequences && !departure.touch.away;
}

/** The departures of each touching block, all chains of calls together. */
function byTouch({ analysis }: CheckContext): Iterable<Departure[]> {
  const groups = new Map<string, Departure[]>();
  for (const departure of analysis.departures) {
    const key = `${departure.touch.line}:${departure.touch.place.start}`;
    const group = groups.get(key);
    if (group) group.push(departure);
    else groups.set(key, [departure]);
  }
  return groups.values();
}

/** Those of the touches of called files, by the calls in the program itself. */
function byCall({ analysis }: CheckContext): Iterable<Departure[]> {
  const groups = new Map<number, Departure[]>();
  for (const departure of analysis.elsewhere.departures) {
    const call = departure.touch.calls.at(-1);
    if (call === undefined) continue;
    const group = groups.get(call);
    if (group) group.push(departure);
    else groups.set(call, [departure]);
  }
  return groups.values();
}

function unique<T extends { line: number; start: number }>(places: readonly T[]): T[] {
  return [...new Map(places.map((place) => [`${place.line}:${place.start}`, place])).values()];
}
