import { describe, expect, test } from 'vitest';
import { stoppingDistance } from '../../server/probe/stoppingDistance.ts';
import { probeOf } from '../../server/profile/probeOf.ts';
import { builtInProfile, type Profile } from '../../server/profile/profile.ts';
import { paceOf, paceProblem } from '../../server/routines/pace.ts';
import { profiles } from './profiles.ts';

const paceFor = (profile: Profile, agreement?: number) => paceOf(profile, probeOf(profile), agreement);

describe('feeds and short ways from the profile', () => {
  test.each(Object.entries(profiles))('%s: every feed leaves the stylus whole', (_, profile) => {
    const probe = probeOf(profile);
    const pace = paceFor(profile);
    const least = Math.min(probe.overtravel.lateral, probe.overtravel.axial);
    for (const feed of [pace.guarded, pace.search, pace.measuring]) {
      expect(stoppingDistance(probe, feed / 60)).toBeLessThanOrEqual(least / probe.overtravelSafetyFactor);
      expect(stoppingDistance(probe, (2 * feed) / 60)).toBeLessThan(least);
    }
    expect(pace.guarded).toBeLessThanOrEqual(profile.feeds.positioning);
    expect(pace.search).toBeLessThanOrEqual(profile.feeds.search);
    expect(paceProblem(profile, pace)).toBeNull();
  });

  test.each(Object.entries(profiles))('%s: the short ways fit each other', (_, profile) => {
    const probe = probeOf(profile);
    const { backOff, past, agreement, approach, search, atOnce, samePlace } = paceFor(profile);
    expect(backOff).toBeGreaterThanOrEqual(stoppingDistance(probe, search / 60) + probe.release);
    // A touch of less than 0.254 mm is an error of RS274/NGC (NISTIR 6556, 3.5.9.1).
    expect(backOff + past).toBeGreaterThan(0.254);
    // The second touch, falsely tripped half-way, must not pass for an agreement; nor may no contact at all.
    expect(agreement).toBeLessThan(backOff / 2);
    expect(agreement).toBeLessThan(past);
    expect(samePlace).toBeLessThan(past - agreement);
    expect(samePlace).toBeLessThan(atOnce);
    expect(approach).toBeGreaterThan(backOff - atOnce);
  });

  test('a larger agreement asks for a longer way back', () => {
    expect(paceFor(builtInProfile, 0.4).backOff).toBeGreaterThanOrEqual(2);
    expect(paceFor(builtInProfile, 0.4).past).toBeGreaterThan(0.4);
  });

  test('the measuring feed is the one of the calibration', () => {
    expect(paceFor(profiles.calibrated).measuring).toBe(50);
    expect(paceFor(builtInProfile).measuring).toBe(40);
  });
});
