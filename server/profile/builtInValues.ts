/**
 * What holds where a profile says nothing: mm, mm/min, mm/s², s, N, K. A probe and a machine of no particular make, on
 * the cautious side; numbers that rest on these are reported as such.
 */
export const builtInValues = {
  tipDiameter: 4,
  stylus: { length: 50, stemOverTip: 2 / 3, material: 'tungsten-carbide' },
  seat: { radius: 8, preload: 2.5 },
  overtravel: { lateral: 5, axial: 3 },
  repeatability: 0.002,
  release: 0.3,
  coverageFactor: 2,
  machine: {
    deceleration: 100,
    reactionTime: 0.01,
    tripLatency: 0.001,
    latchPeriod: 0.001,
    resolution: 0.001,
    positioningUncertainty: 0.01,
    afterTrip: 'stops-past',
    spindleOrientation: false,
    material: 'steel',
  },
  routines: { parameters: { first: 100, last: 199 } },
  feeds: { positioning: 1500, search: 200, measuring: 40 },
  overtravelSafetyFactor: 2,
} as const;
