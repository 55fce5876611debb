import type { DerivedValue, TouchTerm } from './derivedError.ts';
import { partMaterials } from './materials.ts';
import { type MonteCarloOptions, type MonteCarloResult, monteCarlo, type Sampler } from './monteCarlo.ts';
import { type Lobe, unknownLobes } from './monteCarloLobes.ts';
import { type Random, randomFrom } from './monteCarloRandom.ts';
import type { Probe } from './probe.ts';
import { predictedMeanPreTravel, predictedPreTravel } from './tripModel.ts';

/** Why a value cannot be drawn, named as in `ErrorBudget.notIncluded`; whether it rests on an input is for who asks to know. */
export interface NotDrawn {
  readonly notDrawn: 'oblique-touch' | 'rotary-axis' | 'direction' | 'feed' | 'diameter' | 'input';
}

/**
 * The error of a derived value by drawing (JCGM 101:2008), mm: each trial lays surfaces, touches them as `error-model.md` section 1
 * says, and works out the value as the program does; the mean is the bias. Nothing of the linear formula is used. The seed makes
 * it come again.
 *
 * A predicted probe whose seat angle is unknown has no lobes in its mean: its seat may stand anyhow. Few degrees of freedom of the
 * repeatability widen what is drawn (JCGM 101:2008 6.4.9).
 */
export function drawnError(
  probe: Probe,
  value: DerivedValue,
  options: MonteCarloOptions & { readonly seed: number },
): MonteCarloResult | NotDrawn {
  const sampler = derivedSampler(probe, value, randomFrom(options.seed));
  return typeof sampler === 'function' ? monteCarlo(sampler, options) : sampler;
}

/** One touch, made ready: everything about it that is the same in every trial. */
interface Ready {
  readonly coefficient: number;
  /** −1, 0 or 1: the way that the axis read was moved. */
  readonly sign: number;
  /** Of the surface on the axis read, or of the computed place. */
  readonly place: number;
  /** r of a lateral touch at its direction and feed with everything at its middle; what replaces it for others. */
  readonly radius: number;
  readonly lateral: boolean;
  /** Way of the axis in one latch period, mm. */
  readonly latchTravel: number;
  readonly lobeCosines: Float64Array;
  readonly lobeSines: Float64Array;
}

function derivedSampler(probe: Probe, value: DerivedValue, random: Random): Sampler | NotDrawn {
  const terms = value.terms.filter((term) => term.coefficient !== 0);
  const calibrationSpeed = probe.calibration?.speed ?? slowest(terms);
  const angles = new Set(terms.map(({ turnedFrom }) => turnedFrom ?? null));
  const lobes = [...angles].flatMap((from) => unknownLobes(probe, value.spindlePhaseKnown, from));
  const ready: Ready[] = [];
  for (const [index, term] of terms.entries()) {
    const touch = readied(probe, value, term, 100 * (index + 1), calibrationSpeed, lobes);
    if ('notDrawn' in touch) return touch;
    ready.push(touch);
  }
  if (value.diameterCoefficient !== 0 && value.diameter === null) return { notDrawn: 'diameter' };
  return samplerOf(probe, value, ready, lobes, random);
}

function samplerOf(
  probe: Probe,
  value: DerivedValue,
  touches: readonly Ready[],
  lobes: readonly Lobe[],
  random: Random,
): Sampler {
  const { standardDeviation, degreesOfFreedom } = probe.repeatability;
  const { resolution, positioningUncertainty } = probe.machine;
  const offset =
    value.diameterCoefficient * (value.diameter ?? 0) -
    touches.reduce((sum, touch) => sum + touch.coefficient * touch.place, 0);
  const growth = growthHalfWidth(probe, value, touches);
  const common = commonRadius(probe, random);
  const cosines = new Float64Array(lobes.length);
  const sines = new Float64Array(lobes.length);
  return (values) => {
    for (let trial = 0; trial < values.length; trial += 1) {
      const spread =
        degreesOfFreedom === null
          ? standardDeviation
          : standardDeviation * Math.sqrt(degreesOfFreedom / random.chiSquare(degreesOfFreedom));
      const shift = common();
      lobes.forEach(({ amplitude }, order) => {
        const phase = 2 * Math.PI * random.uniform();
        cosines[order] = amplitude * Math.cos(phase);
        sines[order] = amplitude * Math.sin(phase);
      });
      let q = offset + growth * (2 * random.uniform() - 1);
      for (const touch of touches) {
        let radius = touch.radius;
        if (touch.lateral) {
          radius += shift;
          for (let order = 0; order < cosines.length; order += 1)
            radius +=
              (cosines[order] as number) * (touch.lobeCosines[order] as number) -
              (sines[order] as number) * (touch.lobeSines[order] as number);
        }
        let read = touch.place - touch.sign * radius + resolution * (random.uniform() - 0.5);
        if (touch.sign !== 0) {
          read +=
            spread * random.normal() +
            (positioningUncertainty / 2) * random.normal() +
            touch.latchTravel * (random.uniform() - 0.5);
        }
        q += touch.coefficient * read;
      }
      values[trial] = q;
    }
  };
}

/** How far the mean radius is off in one trial, for all lateral touches alike. */
function commonRadius(probe: Probe, random: Random): () => number {
  const { calibration } = probe;
  if (calibration === null) {
    // Mean ± mean has the standard uncertainty mean/√3 and is never negative.
    const mean = predictedMeanPreTravel(probe);
    return () => mean * (2 * random.uniform() - 1);
  }
  const standard = (calibration.expandedUncertainty ?? 0) / (2 * calibration.coverageFactor);
  return () => standard * random.normal();
}

function growthHalfWidth({ machine }: Probe, { size }: DerivedValue, touches: readonly Ready[]): number {
  const isSize =
    touches.length > 1 && Math.abs(touches.reduce((sum, touch) => sum + touch.coefficient, 0)) < 1e-9;
  if (!isSize || size === null || machine.temperatureSpread === null) return 0;
  return partMaterials[machine.material].value * machine.temperatureSpread * size;
}

const axes = ['x', 'y', 'z'];

function readied(
  probe: Probe,
  value: DerivedValue,
  term: TouchTerm,
  place: number,
  calibrationSpeed: number,
  lobes: readonly Lobe[],
): Ready | NotDrawn {
  const axis = axes.indexOf(term.axis);
  if (axis < 0) return { notDrawn: 'rotary-axis' };
  const way = term.direction ?? axes.map((_, index) => (index === axis ? term.sign : 0));
  if (way.some((part) => part === null)) return { notDrawn: 'direction' };
  const parts = way.map((part) => Math.round((part ?? 0) * 1e6) / 1e6);
  if (parts.filter((part) => part !== 0).length !== 1 || !parts.every(Number.isInteger))
    return { notDrawn: 'oblique-touch' };
  const sign = parts[axis] ?? 0;
  const lateral = parts[2] === 0;
  const { latchPeriod, tripLatency, afterTrip } = probe.machine;
  const runsOn = term.from === 'stopped' && afterTrip === 'stops-past';
  const speedMatters = sign !== 0 && (tripLatency !== 0 || latchPeriod !== 0 || runsOn);
  if (term.speed === null && speedMatters) return { notDrawn: 'feed' };
  const speed = term.speed ?? 0;
  const from = term.turnedFrom ?? null;
  const angle = Math.atan2(parts[1] ?? 0, parts[0] ?? 0) - ((term.turn ?? 0) * Math.PI) / 180;
  const lobeOf = (wave: (x: number) => number) =>
    Float64Array.from(lobes, (lobe) => (lobe.turnedFrom === from ? wave(lobe.order * angle) : 0));
  return {
    coefficient: term.coefficient,
    sign,
    place,
    lateral,
    radius:
      (lateral ? stillRadius(probe, angle, value.spindlePhaseKnown && from === null) : 0) +
      lateness(probe, term, speed, lateral, calibrationSpeed) -
      (runsOn ? overrun(probe, term, speed) : 0),
    latchTravel: speed * latchPeriod,
    lobeCosines: lobeOf(Math.cos),
    lobeSines: lobeOf(Math.sin),
  };
}

/** r in this direction (radians) without what the feed does to it; its mean where the lobes may stand anyhow. */
function stillRadius(probe: Probe, angle: number, phaseKnown: boolean): number {
  const { calibration, seat, tipDiameter } = probe;
  if (calibration === null) {
    const stands = phaseKnown && seat.angle !== null;
    return (
      tipDiameter / 2 -
      (stands ? predictedPreTravel(probe, (angle * 180) / Math.PI) : predictedMeanPreTravel(probe))
    );
  }
  let radius = calibration.effectiveDiameter / 2;
  if (phaseKnown)
    for (const { order, cosine, sine } of calibration.harmonics ?? [])
      radius += cosine * Math.cos(order * angle) + sine * Math.sin(order * angle);
  return radius;
}

/** −(v − v_cal)·τ towards, (v + v_cal)·τ away; a lateral prediction has no feed in it. */
function lateness(
  probe: Probe,
  term: TouchTerm,
  speed: number,
  lateral: boolean,
  calibrationSpeed: number,
): number {
  const within = lateral && probe.calibration === null ? 0 : calibrationSpeed;
  const { tripLatency } = probe.machine;
  return tripLatency * (term.motion === 'towards' ? within - speed : within + speed);
}

/** From the latched place to rest, along the way from the tip to the surface. */
function overrun(probe: Probe, term: TouchTerm, speed: number): number {
  const { reactionTime, deceleration, tripLatency } = probe.machine;
  const way = speed * (reactionTime - tripLatency) + speed ** 2 / (2 * deceleration);
  return term.motion === 'towards' ? way : -way;
}

function slowest(terms: readonly TouchTerm[]): number {
  const speeds = terms.flatMap(({ speed }) => speed ?? []);
  return speeds.length === 0 ? 0 : Math.min(...speeds);
}
