/** Classes of the tolerance that plug and ring gauges are made to. */
export type GaugeClass = 'XX' | 'X' | 'Y' | 'Z' | 'ZZ';

/** Which way a gauge may be off its nominal size; a master both ways alike. */
export type GaugeKind = 'ring-go' | 'ring-no-go' | 'plug-go' | 'plug-no-go' | 'master';

/**
 * Width of the tolerance of a gauge of this diameter, mm; null where the table has none (ASME B89.1.5; rows X, Z and ZZ read,
 * XX and Y from memory).
 */
export function gaugeTolerance(diameter: number, gaugeClass: GaugeClass): number | null {
  const size = diameter / inch;
  if (!(size >= smallest)) return null;
  const range = upperEnds.findIndex((end) => size <= end);
  const microinches = microinchesOf[gaugeClass][range];
  return microinches === undefined ? null : microinches * 1e-6 * inch;
}

/** Least and greatest deviation from the nominal diameter, mm. */
export function gaugeDeviations(
  diameter: number,
  gaugeClass: GaugeClass,
  kind: GaugeKind,
): readonly [number, number] | null {
  const width = gaugeTolerance(diameter, gaugeClass);
  if (width === null) return null;
  const above = shareAbove[kind];
  return [(above - 1) * width, above * width];
}

const inch = 25.4;
const smallest = 0.01;
const upperEnds = [0.825, 1.51, 2.51, 4.51, 6.51, 9.01, 12.01];

const microinchesOf: Readonly<Record<GaugeClass, readonly number[]>> = {
  XX: [20, 30, 40, 50, 65, 80, 100],
  X: [40, 60, 80, 100, 130, 160, 200],
  Y: [70, 90, 120, 150, 190, 240, 300],
  Z: [100, 120, 160, 200, 250, 320, 400],
  ZZ: [200, 240, 320, 400, 500, 640, 800],
};

const shareAbove: Readonly<Record<GaugeKind, number>> = {
  'ring-go': 0,
  'ring-no-go': 1,
  'plug-go': 1,
  'plug-no-go': 0,
  master: 0.5,
};
