import { coverageFactor } from './combinedUncertainty.ts';
import { isCompensated, rightCoefficient } from './compensated.ts';
import { type DerivedValue, derivedError } from './derivedError.ts';
import { effectiveDiameter } from './effectiveDiameter.ts';
import { type Change, changed, expectedErrorOf, type Measurement, slowest } from './improvementChange.ts';
import { stemMaterials } from './materials.ts';
import type { Probe } from './probe.ts';
import { readTouches } from './readTouch.ts';

/** A change alone, or several together, and the expected error after it, mm. */
export interface Improvement {
  readonly changes: readonly Change[];
  readonly expectedError: number;
  readonly decides: boolean;
}

/** What a tolerance of ±T would take, mm. */
export interface Outlook {
  readonly expectedError: number;
  readonly decides: boolean;
  /** Each alone, cheapest first: the program, more time, the spindle, the probe, the machine. */
  readonly options: readonly Improvement[];
  /** The fewest of them, cheapest first, that decide together; null: not even all. */
  readonly together: Improvement | null;
  /** The expected error if positioning were all that is uncertain, and the positioning uncertainty (k = 2) that would do. */
  readonly floor: {
    readonly expectedError: number;
    readonly positioningNeeded: number;
    readonly blocks: boolean;
  };
}

/** What a person may do beside the program. */
export interface Means {
  /** The machine can turn the spindle to an angle. */
  readonly canOrient: boolean;
  /** Expanded uncertainty (k = 2) of a ring's diameter, mm, form included. */
  readonly referenceUncertainty: number;
}

/**
 * What would have to change for the expected error to be `ratio` times smaller than the tolerance ±T, mm: the inverse of
 * "which tolerance can this probe decide here?". null where the error is unknown. Every option is worked out with the error model
 * itself; a stylus and a calibration not made yet rest on the trip model.
 */
export function whatWouldDecide(
  probe: Probe,
  value: DerivedValue,
  tolerance: number,
  ratio: number,
  means: Means,
): Outlook | null {
  const now: Measurement = { probe, value, corrected: false };
  const expectedError = expectedErrorOf(now);
  if (expectedError === null) return null;
  const target = (tolerance / ratio) * (1 + 1e-9);
  return {
    expectedError,
    decides: expectedError <= target,
    options: optionsFor(now, expectedError, target, means),
    together: fewest(now, target, means),
    floor: floorOf(now, target),
  };
}

/**
 * What a person could do for a smaller expected error, each thing alone, the largest gain first; nothing where the error is
 * unknown. Touches repeated in one place are as many as halve it, else four.
 * @param ways absent: with the same program and the same machine
 */
export function whatWouldHelp(
  probe: Probe,
  value: DerivedValue,
  means: Means,
  ways: ReadonlySet<Change['kind']> = ownWays,
): readonly Improvement[] {
  const now: Measurement = { probe, value, corrected: false };
  const expectedError = expectedErrorOf(now);
  if (expectedError === null) return [];
  return optionsFor(now, expectedError, expectedError / 2, means)
    .filter(({ changes }) => changes.every(({ kind }) => ways.has(kind)))
    .sort((a, b) => a.expectedError - b.expectedError);
}

/** What is right in the program already, and the machine itself, are not among them. */
const ownWays: ReadonlySet<Change['kind']> = new Set([
  'correction',
  'feed',
  'touches',
  'reversal',
  'calibration',
  'stylus',
]);

/** With the same machine: the program may be mended too. */
export const waysOnThisMachine: ReadonlySet<Change['kind']> = new Set([
  ...ownWays,
  'latched',
  'compensation',
  'diameter',
]);

function optionsFor(now: Measurement, expectedError: number, target: number, means: Means): Improvement[] {
  return offers
    .flatMap((offer) => offer(now, target, means))
    .flatMap((change) => tryOut(now, [change], target) ?? [])
    .filter((option) => option.expectedError < worthwhile * expectedError);
}

/** What gains less than a hundredth is not worth saying. */
const worthwhile = 0.99;

function tryOut(now: Measurement, changes: readonly Change[], target: number): Improvement | null {
  const expectedError = expectedErrorOf(changes.reduce(changed, now));
  return expectedError === null ? null : { changes, expectedError, decides: expectedError <= target };
}

type Offer = (now: Measurement, target: number, means: Means) => Change[];

/** Cheapest first. */
const offers: readonly Offer[] = [
  latchedChange,
  compensationChange,
  diameterChange,
  correctionChange,
  feedChange,
  touchesChange,
  reversalChange,
  calibrationChange,
  stylusChange,
  machineChange,
];

/** Where the axis came to rest is not where it touched. */
function latchedChange({ probe, value }: Measurement): Change[] {
  const runsOn =
    probe.machine.afterTrip === 'stops-past' && value.terms.some(({ from }) => from === 'stopped');
  return runsOn ? [{ kind: 'latched' }] : [];
}

function compensationChange({ probe, value }: Measurement): Change[] {
  if (isCompensated(value)) return [];
  const diameter = effectiveDiameter(probe).value;
  return [{ kind: 'compensation', diameterCoefficient: rightCoefficient(value), diameter }];
}

function diameterChange({ probe, value }: Measurement): Change[] {
  if (value.diameterCoefficient === 0 || value.diameter === null) return [];
  return [{ kind: 'diameter', diameter: effectiveDiameter(probe).value }];
}

/** Only a bias that a calibration has seen is worth taking off, and not one that wrong compensation makes. */
function correctionChange({ probe, value }: Measurement): Change[] {
  const { bias } = derivedError(probe, value);
  if (probe.calibration === null || bias === null || bias === 0 || !isCompensated(value)) return [];
  return [{ kind: 'correction', bias }];
}

/** Where the calibration was made, else half of what is now. */
function feedChange({ probe, value }: Measurement): Change[] {
  const now = slowest(value);
  const calibration = probe.calibration?.speed ?? null;
  const speeds = readTouches(value.terms).flatMap(({ speed }) => speed ?? []);
  const apart =
    calibration !== null && speeds.some((speed) => Math.abs(speed - calibration) > 0.01 * calibration);
  const speed = apart ? calibration : now / 2;
  return speed > 0 ? [{ kind: 'feed', speed }] : [];
}

const mostTouches = 9;

/** As many as decide, else as many as a person may still wait for. */
function touchesChange(now: Measurement, target: number): Change[] {
  const counts = Array.from({ length: mostTouches - 1 }, (_, index) => index + 2);
  const enough = counts.find((count) => tryOut(now, [{ kind: 'touches', count }], target)?.decides);
  return [{ kind: 'touches', count: enough ?? 4 }];
}

function reversalChange({ value }: Measurement, _target: number, { canOrient }: Means): Change[] {
  const touches = readTouches(value.terms);
  const lateral = touches.filter((touch) => touch.along !== 0);
  return canOrient && lateral.length > 0 && lateral.every(({ kind }) => kind === 'lateral')
    ? [{ kind: 'reversal' }]
    : [];
}

/** Twelve see order 3 well and can be set out with a protractor. */
const calibrationTouches = 12;

function calibrationChange(
  { value }: Measurement,
  _target: number,
  { referenceUncertainty }: Means,
): Change[] {
  if (!readTouches(value.terms).some(({ kind }) => kind === 'lateral')) return [];
  return [{ kind: 'calibration', touches: calibrationTouches, referenceUncertainty }];
}

/** Half the length, in the stiffest material. */
function stylusChange({ probe, value }: Measurement): Change[] {
  if (!readTouches(value.terms).some(({ kind }) => kind === 'lateral')) return [];
  const { stylus } = probe;
  const stiffest = 'tungsten-carbide';
  const material =
    stemMaterials[stylus.material].value < stemMaterials[stiffest].value ? stiffest : stylus.material;
  return [{ kind: 'stylus', stylus: { ...stylus, length: stylus.length / 2, material } }];
}

/** The positioning uncertainty that decides while all else stays, to a tenth of what it is now. */
function machineChange(now: Measurement, target: number): Change[] {
  const whole = now.probe.machine.positioningUncertainty;
  const shares = [0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0];
  const enough = shares.find(
    (share) => tryOut(now, [{ kind: 'machine', positioningUncertainty: share * whole }], target)?.decides,
  );
  return [{ kind: 'machine', positioningUncertainty: (enough ?? 0.5) * whole }];
}

/** Cheapest first until it decides, each chosen after those before; then whatever is not needed is left out again, dearest first. */
function fewest(now: Measurement, target: number, means: Means): Improvement | null {
  const gathered: Change[] = [];
  let best: Improvement | null = null;
  for (const offer of offers) {
    const here = gathered.reduce(changed, now);
    const before = expectedErrorOf(here) ?? Infinity;
    for (const change of best === null ? offer(here, target, means) : []) {
      const tried = tryOut(now, [...gathered, change], target);
      if (tried === null || tried.expectedError >= worthwhile * before) continue;
      gathered.push(change);
      if (tried.decides) best = tried;
    }
  }
  for (const change of gathered.toReversed()) {
    const without = best?.changes.filter((each) => each !== change) ?? [];
    const still = without.length === 0 ? null : tryOut(now, without, target);
    if (still?.decides) best = still;
  }
  return best;
}

function floorOf({ probe, value }: Measurement, target: number): Outlook['floor'] {
  const coefficients = readTouches(value.terms).filter(({ along }) => along !== 0);
  // 95 % of a normal, for each ±1 of positioning at k = 2.
  const gain = (coverageFactor(null) / 2) * Math.hypot(...coefficients.map(({ coefficient }) => coefficient));
  const expectedError = gain * probe.machine.positioningUncertainty;
  return {
    expectedError,
    positioningNeeded: gain === 0 ? Infinity : target / gain,
    blocks: expectedError > target,
  };
}
