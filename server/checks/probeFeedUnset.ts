import { measuringFeed } from '../profile/probeOf.ts';
import { feedFix } from './feedFix.ts';
import type { Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

export const probeFeedUnset: Rule = {
  id: 'probe-feed-unset',
  severity: 'error',
  title: 'a touch with no feed set before it',
  what: 'On some path no F word comes before this touch since the program’s start, in its own block or in an earlier one; or the feed is 0, as where a call leaves out the argument that gives it. At the entry of a subroutine that nobody in the file calls the feed is unknown, and the rule is quiet.',
  why: 'The control stops with an alarm, or it touches at the feed that the last program left behind, which may be a cutting feed: the probe trips and the axis runs on.',
  instead: 'Write the measuring feed in the block of the touch.',
  source: 'NISTIR 6556, 3.5.9.1 and the error list of its reference interpreter: a feed of zero is an error',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X0 Y0
G91 G38.2 Z-10
G0 Z2
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 Z5.
IF[#101EQ1]GOTO5
F40.
N5 G31 Z-10. (no feed on the path that jumps here)
IF[ABS[#5063+10.]LT0.05]GOTO9
G0 Z5.
M30
N9 #3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
F40 (modal: it holds for the touch below)
G0 X0 Y0
G91 G38.2 Z-10
G0 Z2
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G91 G94
G31 Z-10. F#9
G0 Z5.
M99
`,
    },
  ],
  *check(context) {
    const { analysis, profile } = context;
    for (const fault of faultsByBlock(
      analysis.touches.filter(({ feed }) => feed.unset || feed.value === 0),
    )) {
      const unset = fault.reached.some(({ feed }) => feed.unset);
      yield {
        message: unset
          ? 'No feed was set before this touch: the control raises an alarm, or touches at whatever feed the last program left.'
          : 'The feed at this touch is 0: the control raises an alarm, or never gets there.',
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
        fixes: feedFix(fault.touch, measuringFeed(profile) ?? profile.feeds.measuring, context),
      };
    }
  },
};
