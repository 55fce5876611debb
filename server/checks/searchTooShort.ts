import type { Touch } from '../analysis/model.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

const loose = '{ "placementUncertainty": 5 }';

export const searchTooShort: Rule = {
  id: 'search-too-short',
  severity: 'info',
  title: 'a search that misses a part off its place',
  what: 'The first touch towards a surface travels less than twice the stated `placementUncertainty`. A surface that may lie that far nearer or further needs a start before the nearer place and an end behind the further one. Without a stated value the rule is quiet, and so it is for a touch that follows one in the same direction, moves away, or is guarded travel.',
  why: 'A part that lies where it may lie is not found, and the program stops, or the tip starts inside it.',
  instead: 'Start further off and search further, or place the part better and say so in the profile.',
  source: 'twice the uncertainty: elementary kinematics; common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: loose,
      program: 'G21 G90 G94\nG0 X0 Y0\nG91\nG38.2 X6 F40\nG0 X-5\nM2\n',
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      profile: loose,
      program: 'G21 G90 G94\nG0 X0 Y0\nG91\nG38.2 X12 F40\nG0 X-5\nG38.2 X6 F40\nG0 X-5\nM2\n',
    },
  ],
  *check({ analysis, profile }) {
    const { placementUncertainty } = profile;
    if (placementUncertainty === null) return;
    const short = firstSearches(analysis.touches).filter(
      ({ travel }) => travel !== null && travel < 2 * placementUncertainty - 1e-6,
    );
    for (const fault of faultsByBlock(short)) {
      const unit = readerUnit(fault.touch.modes, profile);
      yield {
        message: `This search travels ${lengthText(fault.touch.travel ?? 0, unit)}; a part that may stand ${lengthText(placementUncertainty, unit)} off either way needs ${lengthText(2 * placementUncertainty, unit)}.`,
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
      };
    }
  },
};

/** Measuring touches of known direction that follow none in the same direction. */
function firstSearches(touches: readonly Touch[]): Touch[] {
  const inOrder = [...touches].sort(byPath);
  return inOrder.filter((touch, i) => {
    const isGuarded = !touch.alarms && touch.reaches.length === 0;
    if (touch.away || isGuarded || touch.direction === null) return false;
    const earlier = inOrder[i - 1];
    return earlier === undefined || !sameWay(earlier, touch);
  });
}

/** As the lines are come by, outermost call first. */
function byPath(a: Touch, b: Touch): number {
  const [one, other] = [
    [...a.calls, a.line],
    [...b.calls, b.line],
  ];
  const apart = one.findIndex((line, i) => line !== other[i]);
  return apart < 0 ? 0 : (one[apart] ?? -1) - (other[apart] ?? -1);
}

function sameWay(a: Touch, b: Touch): boolean {
  return a.direction === null || a.direction.every((n, i) => Math.abs(n - (b.direction?.[i] ?? 0)) < 1e-6);
}
