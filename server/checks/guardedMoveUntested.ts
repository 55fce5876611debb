import type { Departure, Touch } from '../analysis/model.ts';
import { lineName } from './blockFacts.ts';
import { lengthText, readerUnit, type Unit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { blockKey } from './touchFaults.ts';

export const guardedMoveUntested: Rule = {
  id: 'guarded-move-untested',
  severity: 'warning',
  title: 'a guarded move may have stopped short, and the program goes on as if it had arrived',
  what: 'G38.3 or a skip move used for travel (its result is used nowhere) is followed by a plain move that goes further the same way or along another axis, or in the macro family by a touch that measures, and nothing has looked before whether it reached its end. A test of #5070, of the position against the target or of a status input counts. Another guarded move next is no fault in itself, nor is a move back or a lift.',
  why: 'A guarded move that meets a clamp stops there with the probe tripped. Nothing says so: the next move pushes the tip on into the clamp, or goes down beside it somewhere else than was meant, and a skip move that starts with the probe tripped takes where it stands for its surface.',
  instead:
    'Test behind each guarded move that it reached its end; where it did not, go back the way it came and stop with a message.',
  source:
    'common practice, no source; that a probe move must not start with the probe tripped: NISTIR 6556, 4.3.6.6',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z20
G38.3 X50 F800
G0 Z5
G38.2 Z-10 F40
G0 Z20
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G91 G94
G31 Z-20. F400.
G0 X15.
G0 Z20.
M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0 Z20
G38.3 X50 F800
o1 if [#5070 EQ 1]
  G0 X0
  (ABORT, something in the way)
o1 endif
G0 Z5
G38.2 Z-10 F40
G0 Z20
M2
`,
    },
  ],
  *check(context) {
    for (const moves of byTouch(context)) {
      const [first] = moves;
      if (first) yield report(first, moves, context);
    }
  },
};

function report(first: Departure, moves: readonly Departure[], { profile }: CheckContext): Report {
  const { touch } = first;
  const unit = readerUnit(touch.modes, profile);
  const places = new Map(moves.map(({ place }) => [`${place.line}:${place.start}`, place]));
  return {
    message: `${touch.code} stops where it meets something${wayOf(touch, unit)}, and nothing looks whether it did: ${consequence(first, unit)}.`,
    place: touch.place,
    related: [...places.values()].map((place) => ({
      message: 'goes on as if the guarded move had reached its end',
      place,
    })),
  };
}

function wayOf({ travel }: Touch, unit: Unit): string {
  return travel === null ? '' : `, anywhere on its ${lengthText(travel, unit)}`;
}

function consequence({ kind, place, component }: Departure, unit: Unit): string {
  const line = lineName(place.line);
  if (kind === 'further-in')
    return `${line} then pushes the tip on${component ? ` by ${lengthText(component, unit)}` : ''}, into what it met`;
  return `${line} then goes on from there, with the tip against what it met`;
}

function byTouch({ analysis }: CheckContext): Iterable<Departure[]> {
  const groups = new Map<string, Departure[]>();
  for (const move of analysis.unguardedMoves) {
    const key = blockKey(move.touch);
    groups.set(key, [...(groups.get(key) ?? []), move]);
  }
  for (const group of groups.values()) group.sort((a, b) => a.place.line - b.place.line);
  return groups.values();
}
