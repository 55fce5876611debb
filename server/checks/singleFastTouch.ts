import { measuringFeed } from '../profile/probeOf.ts';
import { feedFix } from './feedFix.ts';
import { feedOf, isSingleFast, latencySource, shift } from './measuringFeedMismatch.ts';
import { errorText, feedText, readerUnit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { callsOf, faultsByBlock, type TouchFault, withEachFeed } from './touchFaults.ts';

const shop = `{ "probe": { "calibration": { "effectiveDiameter": 3.986, "expandedUncertainty": 0.002, "feed": 40 } }, "machine": { "tripLatency": 0.001, "latchPeriod": 0.001 } }`;

export const singleFastTouch: Rule = {
  id: 'single-fast-touch',
  severity: 'warning',
  title: 'the result comes from one fast touch alone',
  what: 'A result that reaches a datum, an output or a caller is taken from a touch that is more than 2 % faster than the measuring feed (of the calibration, else the one that the profile states; with neither, the rule is quiet), and no other touch stands at the same spot: no second, slower one after a retract, no back-off measurement (G38.4, G38.5). Where there is another one and the feed is wrong all the same, `measuring-feed-mismatch` speaks instead; there is one finding for one touch.',
  why: 'A fast touch finds the surface, it does not measure it: the latch comes later by speed times latency than at the calibration, its steps are as long as the way between two samples of the control, and the tip arrives with the swing of the search.',
  instead:
    'Search fast, retract by a little more than it takes to free the tip, touch again at the measuring feed, and take that result; or move back slowly until the probe frees itself and take the place of the release. Where a rough location is all that is wanted, say so: `(probewright: allow single-fast-touch - rough location only)`.',
  source:
    'feed times latency, feed times sampling period: elementary kinematics; a slow touch after a fast one: common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G91 G38.2 X20 F200
#<edge> = [#5061 + 1.993]
G0 X-5
G90
G10 L2 P2 X#<edge>
M2
`,
    },
    {
      dialect: 'macro',
      profile: shop,
      program: `G21 G90 G94
G0 Z5.
G31 Z-10. F120.
IF[ABS[#5063+10.]LT0.05]GOTO9
#5223=#5223+#5063
G0 Z5.
M30
N9 #3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G91 G38.2 X20 F200 (the fast touch only finds the edge)
G0 X-2
G38.2 X3 F40
#<edge> = [#5061 + 1.993]
G0 X-5
G90
G10 L2 P2 X#<edge>
M2
`,
    },
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G91 G38.2 X20 F200
G38.4 X-2 F40 (back slowly: the release is the result)
#<edge> = [#5061 + 1.993]
G0 X-5
G90
G10 L2 P2 X#<edge>
M2
`,
    },
  ],
  *check(context) {
    const feed = measuringFeed(context.profile);
    if (feed === null) return;
    const fast = context.analysis.touches.flatMap(withEachFeed).filter((touch) => isSingleFast(touch, feed));
    for (const fault of faultsByBlock(fast)) yield report(fault, feed, context);
  },
};

function report(fault: TouchFault, measuring: number, context: CheckContext): Report {
  const { touch } = fault;
  const { profile, analysis } = context;
  const unit = readerUnit(touch.modes, profile);
  const feed = touch.feed.value ?? 0;
  const isStated = profile.source('machine.latchPeriod') !== 'built-in';
  const step = isStated ? (feed / 60) * profile.machine.latchPeriod : 0;
  const steps = step > 0 ? `, and the latch falls in steps of ${errorText(step, unit)}` : '';
  return {
    message: `This one touch gives a result at ${feedText(feed, unit)}, and no slower one follows at ${feedText(measuring, unit)}, the measuring feed: the result is shifted by ${errorText(shift(touch, measuring, profile), unit)}${latencySource(profile)}${steps}.`,
    place: touch.place,
    related: [...feedOf(touch), ...callsOf(fault, analysis.source)],
    fixes: feedFix(touch, measuring, context),
  };
}
