import type { Touch } from '../analysis/model.ts';
import { overtravelLimit, speedForStoppingDistance, stoppingDistance } from '../probe/stoppingDistance.ts';
import { measuringFeed, probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { feedFix } from './feedFix.ts';
import { feedText, lengthText, readerUnit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';
import { statedStopping } from './statedStopping.ts';
import { callsOf, faultsByBlock, type TouchFault, withEachFeed } from './touchFaults.ts';

type Direction = readonly [number, number, number];

/** Stopping distance and limit of a touch, mm. */
interface Overtravel {
  readonly stopping: number;
  readonly limit: number;
  readonly allowed: number;
  /** Holds with the values alone that the profile states. */
  readonly stated: boolean;
}

const shop = `{ "probe": { "overtravel": { "lateral": 5, "axial": 3 } }, "machine": { "deceleration": 100, "reactionTime": 0.01 } }`;

export const overtravelExceeded: Rule = {
  id: 'overtravel-exceeded',
  severity: 'error',
  title: 'at this feed the axis stops past what the probe can take',
  what: 'From the trip the axis goes on by its reaction and its braking: v·t + v²/(2a). At the feed of this touch that is more than the probe’s overtravel limit divided by the safety factor. Along Z the axial limit counts, else the lateral one. Where overtravel, deceleration or reaction time are built-in values and not those of a profile, it is only information.',
  why: 'The stylus bends to its stop: it breaks, or the probe’s seat is damaged and every later measurement with it.',
  instead:
    'Touch at a lower feed, or search fast in two steps: a fast touch that this machine still stops in time, a retract, and a slow one.',
  source:
    'stopping distance: elementary kinematics; the limit: the profile; the factor: common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94
G0 X0 Y0
G91 G38.2 X30 F1800 (30 mm/s: 4.8 mm to stop, 2.5 mm allowed)
G0 X-5
M2
`,
    },
    {
      dialect: 'macro',
      profile: shop,
      program: `G21 G91 G94
F1200.
G31 Z-30. (20 mm/s: 2.2 mm to stop, 1.5 mm allowed along Z)
IF[#5063LT-29.9]GOTO9
G0 Z5.
M30
N9 G0 Z30.
M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      profile: shop,
      program: `G21 G90 G94
G0 X0 Y0
G91 G38.2 X30 F600
G0 X-5
G38.2 X6 F40
G0 X-5
M2
`,
    },
  ],
  *check(context) {
    const probe = probeOf(context.profile);
    const over = context.analysis.touches
      .flatMap(withEachFeed)
      .filter((touch) => overtravelOf(touch, context.profile, probe) !== null);
    for (const fault of faultsByBlock(over)) {
      const worst =
        [...fault.reached].sort((a, b) => (b.feed.value ?? 0) - (a.feed.value ?? 0))[0] ?? fault.touch;
      const overtravel = overtravelOf(worst, context.profile, probe);
      if (overtravel) yield report(worst, fault, overtravel, context);
    }
  },
};

function overtravelOf(touch: Touch, profile: Profile, probe: ReturnType<typeof probeOf>): Overtravel | null {
  const direction = lineOf(touch);
  if (touch.away || touch.feed.value === null || direction === null) return null;
  const speed = touch.feed.value / 60;
  const stopping = stoppingDistance(probe, speed);
  const { limit, allowed } = overtravelLimit(probe, direction);
  if (!(stopping > allowed)) return null;
  return { stopping, limit, allowed, stated: statedPast(direction, speed, profile) > allowed };
}

/** The direction, or from an unknown start the one axis of the touch: its limit is the same both ways. */
function lineOf({ direction, axis }: Touch): Direction | null {
  return direction ?? (axis === null ? null : alongAxis[axis]);
}

const alongAxis: Readonly<Record<'x' | 'y' | 'z', Direction>> = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };

/** The part of the stopping distance that rests on stated values; 0 where the limit itself is built in. */
function statedPast(direction: Direction, speed: number, profile: Profile): number {
  const isStated = (key: string) => profile.source(key) === 'profile';
  const [x, y, z] = direction;
  if (Math.abs(z) > 1e-9 && !isStated('probe.overtravel.axial')) return 0;
  if (Math.hypot(x, y) > 1e-9 && !isStated('probe.overtravel.lateral')) return 0;
  return statedStopping(profile, speed);
}

function report(touch: Touch, fault: TouchFault, over: Overtravel, context: CheckContext): Report {
  const { profile } = context;
  const unit = readerUnit(touch.modes, profile);
  const built = over.stated ? '' : ' These are built-in values: put your probe and machine into a profile.';
  return {
    message: `At ${feedText(touch.feed.value ?? 0, unit)} the axis stops ${lengthText(over.stopping, unit)} after the trip; this probe allows ${lengthText(over.limit, unit)}, and with the safety factor of ${profile.overtravelSafetyFactor} no more than ${lengthText(over.allowed, unit)}.${built}`,
    place: touch.place,
    related: [
      ...(touch.feed.place && touch.feed.place.line !== touch.line
        ? [{ message: 'the feed comes from here', place: touch.feed.place }]
        : []),
      ...callsOf(fault, context.analysis.source),
    ],
    fixes: feedFix(touch, gentlerFeed(touch, over.allowed, profile), context),
    ...(over.stated ? {} : { severity: 'info' as const }),
  };
}

/** The feed that this touch is for where it stops in time, else the fastest round one that does; mm/min. */
function gentlerFeed(touch: Touch, allowed: number, profile: Profile): number {
  const fastest = speedForStoppingDistance(probeOf(profile), allowed) * 60;
  const meant = touch.reaches.length > 0 ? measuringFeed(profile) : profile.feeds.search;
  if (meant !== null && meant <= fastest) return meant;
  const step = fastest >= 100 ? 10 : 1;
  return Math.floor(fastest / step) * step || fastest;
}
