import type { Touch } from '../analysis/model.ts';
import { axialRadius, meanEffectiveRadius } from '../probe/effectiveRadius.ts';
import { measuringFeed, probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { feedFix } from './feedFix.ts';
import { errorText, feedText, readerUnit } from './quantity.ts';
import type { CheckContext, Finding, Report, Rule } from './rule.ts';
import { blockKey, callsOf, faultsByBlock, type TouchFault, withEachFeed } from './touchFaults.ts';

/** Feeds that differ by no more than this give the same latch for any purpose of a shop. */
const allowedShare = 0.02;

const shop = `{ "probe": { "calibration": { "effectiveDiameter": 3.986, "expandedUncertainty": 0.002, "feed": 40 } }, "machine": { "tripLatency": 0.001 } }`;

export const measuringFeedMismatch: Rule = {
  id: 'measuring-feed-mismatch',
  severity: 'warning',
  title: 'the measuring touch runs at another feed than the calibration',
  what: 'The touch whose result reaches a datum, an output or a caller runs at a feed that differs by more than 2 % from the one at which the probe was calibrated (else from the measuring feed that the profile states; with neither, the rule is quiet). Where it is faster than that and the only touch at its spot, `single-fast-touch` speaks instead.',
  why: 'Between the trip and the latch the axis goes on by its speed times the latency. The calibration took that into the effective radius at its own feed; at another feed every result is shifted by the difference.',
  instead:
    'Make the touch that counts at the feed of the calibration, or calibrate at the feed that the programs use.',
  source:
    'feed times latency: elementary kinematics; one feed for calibration and measurement: common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94 G54
G0 X0 Y0
G91 G38.2 X20 F200
G0 X-2
G38.2 X3 F100
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
G31 Z-10. F20.
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
  ],
  *check(context) {
    const feed = measuringFeed(context.profile);
    if (feed === null) return;
    const differing = context.analysis.touches.flatMap(withEachFeed).filter((touch) => differs(touch, feed));
    const single = new Set(differing.filter((touch) => isSingleFast(touch, feed)).map(blockKey));
    const others = differing.filter((touch) => !single.has(blockKey(touch)));
    for (const fault of faultsByBlock(others)) yield report(fault, feed, context);
  },
};

function differs({ reaches, feed }: Touch, measuring: number): boolean {
  if (reaches.length === 0 || feed.value === null) return false;
  return Math.abs(feed.value - measuring) > allowedShare * measuring + 1e-9;
}

/** A touch towards the surface, faster than the measuring feed (mm/min) and without another at its spot. */
export function isSingleFast(touch: Touch, measuring: number): boolean {
  return !touch.away && touch.alone && differs(touch, measuring) && (touch.feed.value ?? 0) > measuring;
}

function report(fault: TouchFault, measuring: number, context: CheckContext): Report {
  const { touch } = fault;
  const { profile, analysis } = context;
  const unit = readerUnit(touch.modes, profile);
  const feed = touch.feed.value ?? 0;
  const latency = latencySource(profile);
  return {
    message: `This touch gives a result at ${feedText(feed, unit)}, but the measuring feed is ${feedText(measuring, unit)}: the result is shifted by ${errorText(shift(touch, measuring, profile), unit)}${latency}.`,
    place: touch.place,
    related: [...feedOf(touch), ...callsOf(fault, analysis.source)],
    fixes: feedFix(touch, measuring, context),
  };
}

/** Where the feed comes from, if not from the touch's own block. */
export function feedOf({ feed, line }: Touch): Finding['related'] {
  return feed.place && feed.place.line !== line
    ? [{ message: 'the feed comes from here', place: feed.place }]
    : [];
}

/** A sentence part where the shift rests on a latency that nobody stated. */
export function latencySource(profile: Profile): string {
  return profile.source('machine.tripLatency') === 'built-in' ? ' with the built-in latency' : '';
}

/** r(v_cal) − r(v), mm: what the feed alone puts into the result. */
export function shift({ axis, away, feed }: Touch, measuring: number, profile: Profile): number {
  const probe = probeOf(profile);
  const radius = axis === 'z' ? axialRadius : meanEffectiveRadius;
  const calibrated = radius(probe, measuring / 60, 'towards');
  return calibrated - radius(probe, (feed.value ?? measuring) / 60, away ? 'away' : 'towards');
}
