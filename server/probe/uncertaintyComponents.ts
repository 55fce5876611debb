import type { Component, DerivedValue } from './derivedError.ts';
import { meanPreTravel } from './effectiveRadius.ts';
import { partMaterials } from './materials.ts';
import type { Probe } from './probe.ts';
import type { ReadTouch } from './readTouch.ts';
import { lobingShare, modelledOrders, predictedMeanPreTravel } from './tripModel.ts';

interface Uncertainty {
  readonly components: readonly Component[];
  readonly notIncluded: readonly string[];
}

/**
 * The components of the table in `error-model.md` section 4 that are not zero, each a standard uncertainty in q, mm, and the
 * names of those that nothing states. Coordinates that a touch did not move (n_i = 0) were reached by moving to a
 * computed place: they add resolution only. Rotary coordinates add nothing (and `rotary-axis` stands in `notIncluded`).
 */
export function uncertaintyComponents(
  probe: Probe,
  value: DerivedValue,
  touches: readonly ReadTouch[],
): Uncertainty {
  const linear = touches.filter((touch) => touch.kind !== 'rotary');
  const parts = [
    ...perTouch(probe, linear),
    latchPeriod(probe, linear),
    ...radius(probe, value, linear),
    temperature(probe, value, linear),
  ];
  return {
    components: parts.filter((part) => typeof part === 'object').filter((part) => !negligible(part)),
    notIncluded: parts.filter((part) => typeof part === 'string'),
  };
}

/** A component, the name of one that nothing states, or nothing where it does not apply. */
type Part = Component | string | undefined;

// Opposite touches cancel only to rounding: below a femtometre in mm nothing is left.
const negligible = (part: Component): boolean => !(part.standardUncertainty > 1e-15);

function perTouch(probe: Probe, linear: readonly ReadTouch[]): Part[] {
  const { repeatability, machine } = probe;
  const touched = linear.filter(isTouched).map((touch) => touch.coefficient);
  return [
    {
      name: 'repeatability',
      distribution: 'normal',
      standardUncertainty: repeatability.standardDeviation * Math.hypot(...touched),
      degreesOfFreedom: repeatability.degreesOfFreedom,
      source: repeatability.source,
    },
    {
      name: 'resolution',
      distribution: 'rectangular',
      standardUncertainty:
        (machine.resolution / Math.sqrt(12)) * Math.hypot(...linear.map((touch) => touch.coefficient)),
      degreesOfFreedom: null,
      source: 'machine.resolution',
    },
    {
      name: 'positioning',
      distribution: 'normal',
      standardUncertainty: (machine.positioningUncertainty / 2) * Math.hypot(...touched),
      degreesOfFreedom: null,
      source: 'machine.positioningUncertainty',
    },
  ];
}

const isTouched = (touch: ReadTouch): boolean => touch.along !== 0 || touch.kind === 'unknown';

function latchPeriod(probe: Probe, linear: readonly ReadTouch[]): Part {
  const period = probe.machine.latchPeriod;
  const touched = linear.filter(isTouched);
  if (period === 0) return undefined;
  if (touched.some((touch) => touch.speed === null)) return 'latch-period';
  const travels = touched.map((touch) => touch.coefficient * (touch.speed ?? 0) * period);
  return {
    name: 'latch-period',
    distribution: 'rectangular',
    standardUncertainty: Math.hypot(...travels) / Math.sqrt(12),
    degreesOfFreedom: null,
    source: 'machine.latchPeriod',
  };
}

/** What all lateral touches have in common: the mean radius, the lobes and the run-out. */
function radius(probe: Probe, value: DerivedValue, linear: readonly ReadTouch[]): Part[] {
  if (linear.some((touch) => touch.kind === 'unknown')) return ['effective-radius', 'lobing', 'runout'];
  const lateral = linear.filter((touch) => touch.kind !== 'axial' && touch.along !== 0);
  const apart = byTurnedFrom(lateral);
  return [
    effectiveRadius(probe, lateral),
    ...lobes(
      apart.flatMap(([from, touches]) =>
        unknownPhases(probe, value.spindlePhaseKnown && from === null).map((phase) => ({
          ...phase,
          touches,
        })),
      ),
    ),
    runout(
      probe,
      apart.map(([, touches]) => touches),
    ),
  ];
}

type Apart = readonly [from: string | null, touches: readonly ReadTouch[]];

/** Touches between which the spindle's turn is known, together. */
function byTurnedFrom(lateral: readonly ReadTouch[]): readonly Apart[] {
  const names = new Set(lateral.map(({ turnedFrom }) => turnedFrom));
  return [...names].map((name) => [name, lateral.filter(({ turnedFrom }) => turnedFrom === name)]);
}

function effectiveRadius(probe: Probe, lateral: readonly ReadTouch[]): Part {
  const sum = Math.abs(lateral.reduce((total, touch) => total + touch.coefficient * touch.along, 0));
  const { calibration } = probe;
  const name = 'effective-radius';
  if (calibration === null) {
    return {
      name,
      distribution: 'rectangular',
      standardUncertainty: (predictedMeanPreTravel(probe) / Math.sqrt(3)) * sum,
      degreesOfFreedom: null,
      source: 'probe.stylus',
    };
  }
  if (calibration.expandedUncertainty === null) return sum > 1e-12 ? name : undefined;
  return {
    name,
    distribution: 'normal',
    standardUncertainty: (calibration.expandedUncertainty / (2 * calibration.coverageFactor)) * sum,
    degreesOfFreedom: null,
    source: 'probe.calibration.expandedUncertainty',
  };
}

interface UnknownPhase {
  readonly order: number;
  readonly amplitude: number;
  readonly source: string;
}

function unknownPhases(probe: Probe, spindlePhaseKnown: boolean): readonly UnknownPhase[] {
  const { calibration, seat } = probe;
  const harmonics = calibration?.harmonics ?? null;
  if (harmonics !== null) {
    if (spindlePhaseKnown) return [];
    return harmonics.map(({ order, cosine, sine }) => ({
      order,
      amplitude: Math.hypot(cosine, sine),
      source: 'probe.calibration.harmonics',
    }));
  }
  if (calibration === null && seat.angle !== null && spindlePhaseKnown) return [];
  const mean = meanPreTravel(probe);
  const source = calibration === null ? 'probe.stylus' : 'probe.calibration.harmonics';
  return modelledOrders.map((order) => ({ order, amplitude: Math.abs(lobingShare(order)) * mean, source }));
}

function runout(probe: Probe, apart: readonly (readonly ReadTouch[])[]): Part {
  if (probe.calibration?.harmonics?.some((harmonic) => harmonic.order === 1)) return undefined;
  if (probe.runout === null)
    return apart.some((touches) => phasor(1, touches) > 1e-12) ? 'runout' : undefined;
  const lobe = { order: 1, amplitude: probe.runout, source: 'probe.runout' };
  return lobing(apart.map((touches) => ({ ...lobe, touches })));
}

type Lobe = UnknownPhase & { readonly touches: readonly ReadTouch[] };

/** One component for each order. */
function lobes(all: readonly Lobe[]): Part[] {
  const orders = new Set(all.map(({ order }) => order));
  return [...orders].map((order) => lobing(all.filter((lobe) => lobe.order === order)));
}

/** Lobes of one order: touches with the spindle at one angle share their phase, those at another have one of their own. */
function lobing(apart: readonly Lobe[]): Part {
  const [first] = apart;
  if (first === undefined) return undefined;
  const { order, source } = first;
  return {
    name: order === 1 ? 'runout' : `lobing-${order}`,
    distribution: 'arcsine',
    standardUncertainty:
      Math.hypot(...apart.map(({ amplitude, touches }) => amplitude * phasor(order, touches))) / Math.SQRT2,
    degreesOfFreedom: null,
    source,
  };
}

/** |Σ c_i·n_i·e^{ihθ_i}|: how much of order h stays in q when its phase is unknown. */
function phasor(order: number, lateral: readonly ReadTouch[]): number {
  let cosine = 0;
  let sine = 0;
  for (const touch of lateral) {
    const phase = (order * touch.angle * Math.PI) / 180;
    cosine += touch.coefficient * touch.along * Math.cos(phase);
    sine += touch.coefficient * touch.along * Math.sin(phase);
  }
  return Math.hypot(cosine, sine);
}

function temperature(probe: Probe, value: DerivedValue, linear: readonly ReadTouch[]): Part {
  const { temperatureSpread, material } = probe.machine;
  const isSize =
    linear.length > 1 && Math.abs(linear.reduce((sum, touch) => sum + touch.coefficient, 0)) < 1e-9;
  if (!isSize) return undefined;
  if (temperatureSpread === null || value.size === null) return 'temperature';
  return {
    name: 'temperature',
    distribution: 'rectangular',
    standardUncertainty:
      Math.abs(partMaterials[material].value * temperatureSpread * value.size) / Math.sqrt(3),
    degreesOfFreedom: null,
    source: 'machine.temperatureSpread',
  };
}
