import { builtInProfile, type Profile, readProfile } from '../../server/profile/profile.ts';

/** Invented profiles of our own: none, calibrated in mm, calibrated in inches with the diameter in the tool table. */
export const profiles: Readonly<Record<'builtIn' | 'calibrated' | 'inch' | 'coarse', Profile>> = {
  builtIn: builtInProfile,
  calibrated: read({
    probe: {
      tool: 20,
      tipDiameter: 6,
      stylus: { length: 60, material: 'ceramic' },
      overtravel: { lateral: 8, axial: 4 },
      repeatability: 0.001,
      calibration: {
        date: '2025-03-31',
        effectiveDiameter: 5.9784,
        expandedUncertainty: 0.0016,
        feed: 50,
        harmonics: [{ order: 3, cosine: 0.0021, sine: -0.0008 }],
      },
    },
    machine: {
      deceleration: 400,
      reactionTime: 0.004,
      travel: { x: 800, y: 500, z: 450 },
      spindleOrientation: true,
    },
    feeds: { positioning: 2000, search: 400, measuring: 50 },
    placementUncertainty: 2,
  }),
  inch: read({
    units: 'inch',
    probe: {
      tipDiameter: 0.125,
      calibration: { date: '2025-01-15', effectiveDiameter: 0.1243, expandedUncertainty: 0.0001, feed: 2 },
      overtravel: { lateral: 0.2, axial: 0.12 },
    },
    machine: { deceleration: 8, afterTrip: 'returns-to-trip' },
    feeds: { positioning: 60, search: 10, measuring: 2 },
    effectiveDiameterParameter: '#5410',
  }),
  coarse: read({
    probe: { tipDiameter: 2, repeatability: 0.02, overtravel: { lateral: 1.5, axial: 1 }, release: 0.8 },
    machine: {
      deceleration: 50,
      reactionTime: 0.02,
      tripLatency: 0.004,
      latchPeriod: 0.002,
      resolution: 0.005,
    },
    feeds: { positioning: 800, search: 100, measuring: 25 },
  }),
};

function read(file: object): Profile {
  const { profile, problems } = readProfile(JSON.stringify(file), { path: 'probewright.json', ruleIds: [] });
  if (profile === null) throw new Error(problems.map(({ message }) => message).join(' '));
  return profile;
}
