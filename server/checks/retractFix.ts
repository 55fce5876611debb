import type { Departure, Touch } from '../analysis/model.ts';
import { meanPreTravel } from '../probe/effectiveRadius.ts';
import { stoppingDistance } from '../probe/stoppingDistance.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { codesIn } from './blockFacts.ts';
import { blocksAfter } from './lineEdits.ts';
import { knownUnit, lengthNumber, lengthText } from './quantity.ts';
import type { CheckContext, Fix } from './rule.ts';
import { statedStopping } from './statedStopping.ts';

/**
 * A retract put behind the touch, against its approach; null where the text doesn't say which way and how far, or where
 * the next block would change its meaning: axis words alone after a G0 are no touch any more.
 */
export function retractFix(departures: readonly Departure[], context: CheckContext): Fix | null {
  const [first] = departures;
  if (!first || !departures.every((each) => saysItsMotion(each, context))) return null;
  const { touch } = first;
  const unit = knownUnit(touch.modes);
  const way = commonApproach(departures.map((each) => each.touch));
  const [mode] = touch.modes.distance;
  const oneMode = departures.every(
    ({ touch: { modes } }) => modes.distance.length === 1 && modes.distance[0] === mode,
  );
  if (unit === null || way === null || !oneMode || (mode !== 'G90' && mode !== 'G91')) return null;
  const { source } = context.analysis;
  const distance = retractDistance(touch, context.profile, unit === 'mm' ? 1 : 1.27);
  const number = lengthNumber(distance, unit, source.dialect.name);
  const move = `G0 ${way.axis.toUpperCase()}${way.sign > 0 ? '-' : ''}${number}`;
  const blocks = mode === 'G91' ? [move] : [`G91 ${move}`, 'G90'];
  return {
    title: `Retract ${lengthText(distance, unit)} after the touch`,
    edits: [blocksAfter(source, touch.line, blocks)],
    changesMotion: true,
  };
}

/** What unseats the tip, rounded up to a whole step; mm. */
function retractDistance(touch: Touch, profile: Profile, step: number): number {
  const least = unseatingDistance(profile, touch.feed.value ?? profile.feeds.search);
  return Math.max(1, Math.ceil(least / step - 1e-9)) * step;
}

/** Stopping distance from a feed in mm/min (0 where the control returns to the trip), pre-travel and release; mm. */
export function unseatingDistance(profile: Profile, feed: number): number {
  const probe = probeOf(profile);
  const past = profile.machine.afterTrip === 'returns-to-trip' ? 0 : stoppingDistance(probe, feed / 60);
  return past + meanPreTravel(probe) + profile.probe.release;
}

/** The part of it that rests on values that the profile states; mm. */
export function statedUnseatingDistance(profile: Profile, feed: number): number {
  const { probe, machine } = profile;
  const past = machine.afterTrip === 'returns-to-trip' ? 0 : statedStopping(profile, feed / 60);
  const preTravel = probe.calibration === null ? 0 : meanPreTravel(probeOf(profile));
  return past + preTravel + (profile.source('probe.release') === 'profile' ? probe.release : 0);
}

function commonApproach(touches: readonly Touch[]): { axis: 'x' | 'y' | 'z'; sign: number } | null {
  const ways = touches.map(({ axis, direction }) => {
    const along = axis && direction ? direction[{ x: 0, y: 1, z: 2 }[axis]] : undefined;
    return axis && along ? { axis, sign: Math.sign(along) } : null;
  });
  const [way] = ways;
  const same = ways.every((each) => each?.axis === way?.axis && each?.sign === way?.sign);
  return way && same ? way : null;
}

/** The next motion names its own code, so that a G0 before it leaves it as it is. */
function saysItsMotion({ kind, place }: Departure, { analysis }: CheckContext): boolean {
  if (kind === 'program-end' || kind === 'tool-change') return true;
  return codesIn(analysis.source.block(place.line)).some(({ code }) => code !== null && motions.test(code));
}

const motions = /^G([0-3]|28|30|31|38\.[2-5]|53|73|74|76|8[1-9])$/;
