import { builtInValues as builtIn } from './builtInValues.ts';
import { inMillimetres, keysOf } from './definitionWalk.ts';
import type { Profile, ProfileCalibration, ProfileMachine, ProfileProbe, ValueSource } from './profile.ts';
import type { ProfileFile, profileDefinition } from './profileDefinition.ts';

/** Turns a valid file into a profile: lengths and feeds to mm once, gaps filled with the built-in values. */
export function resolveProfile(
  file: ProfileFile,
  definition: ReturnType<typeof profileDefinition>,
  path: string | null,
): Profile {
  const units = file.units ?? 'mm';
  const mm = inMillimetres(definition, file, units === 'inch' ? 25.4 : 1);
  const stated = new Set(statedKeys(mm, keysOf(definition)));
  const calibrationFeed = mm.probe?.calibration?.feed;
  return {
    path,
    units,
    dialect: mm.dialect ?? null,
    probe: resolveProbe(mm.probe ?? {}),
    machine: resolveMachine(mm.machine ?? {}),
    feeds: {
      positioning: mm.feeds?.positioning ?? builtIn.feeds.positioning,
      search: mm.feeds?.search ?? builtIn.feeds.search,
      // What a routine measures with is what the probe was calibrated with.
      measuring: mm.feeds?.measuring ?? calibrationFeed ?? builtIn.feeds.measuring,
    },
    routines: {
      parameters: {
        first: mm.routines?.parameters?.first ?? builtIn.routines.parameters.first,
        last: mm.routines?.parameters?.last ?? builtIn.routines.parameters.last,
      },
    },
    overtravelSafetyFactor: mm.overtravelSafetyFactor ?? builtIn.overtravelSafetyFactor,
    placementUncertainty: mm.placementUncertainty ?? null,
    effectiveDiameterParameter: mm.effectiveDiameterParameter ?? null,
    rules: (mm.rules ?? {}) as Profile['rules'],
    statedMeasuringFeed: calibrationFeed ?? mm.feeds?.measuring ?? null,
    source: (key) => sourceOf(key, stated),
  };
}

/** A value that is not stated and is worked out from this one. */
const derivedFrom: Readonly<Record<string, string>> = {
  'probe.stylus.stemDiameter': 'probe.tipDiameter',
  'probe.repeatability': 'probe.calibration.residualStandardDeviation',
  'feeds.measuring': 'probe.calibration.feed',
};

function sourceOf(key: string, stated: ReadonlySet<string>): ValueSource {
  if (stated.has(key)) return 'profile';
  const from = derivedFrom[key];
  return from !== undefined && stated.has(from) ? 'derived' : 'built-in';
}

function statedKeys(file: unknown, keys: readonly string[]): string[] {
  return keys.filter((key) => {
    let value: unknown = file;
    for (const part of key.split('.'))
      value = typeof value === 'object' && value !== null ? Reflect.get(value, part) : undefined;
    return value !== undefined;
  });
}

function resolveProbe(probe: NonNullable<ProfileFile['probe']>): ProfileProbe {
  const tipDiameter = probe.tipDiameter ?? builtIn.tipDiameter;
  const { stylus = {}, seat = {}, overtravel = {}, calibration = {} } = probe;
  const residual = calibration.residualStandardDeviation;
  return {
    tool: probe.tool ?? null,
    tipDiameter,
    stylus: {
      length: stylus.length ?? builtIn.stylus.length,
      stemDiameter: stylus.stemDiameter ?? tipDiameter * builtIn.stylus.stemOverTip,
      material: stylus.material ?? builtIn.stylus.material,
    },
    seat: {
      radius: seat.radius ?? builtIn.seat.radius,
      preload: seat.preload ?? builtIn.seat.preload,
      angle: seat.angle ?? null,
    },
    overtravel: {
      lateral: overtravel.lateral ?? builtIn.overtravel.lateral,
      axial: overtravel.axial ?? builtIn.overtravel.axial,
    },
    repeatability: probe.repeatability ?? residual ?? builtIn.repeatability,
    release: probe.release ?? builtIn.release,
    runout: probe.runout ?? null,
    history: probe.history ?? null,
    calibration: resolveCalibration(calibration),
  };
}

function resolveCalibration(
  calibration: NonNullable<NonNullable<ProfileFile['probe']>['calibration']>,
): ProfileCalibration | null {
  if (calibration.effectiveDiameter === undefined) return null;
  const harmonics = calibration.harmonics?.map(({ order, cosine = 0, sine = 0 }) => ({
    order,
    cosine,
    sine,
  }));
  return {
    date: calibration.date ?? null,
    spindle: calibration.spindle ?? null,
    effectiveDiameter: calibration.effectiveDiameter,
    expandedUncertainty: calibration.expandedUncertainty ?? 0,
    coverageFactor: calibration.coverageFactor ?? builtIn.coverageFactor,
    feed: calibration.feed ?? null,
    temperature: calibration.temperature ?? null,
    residualStandardDeviation: calibration.residualStandardDeviation ?? null,
    degreesOfFreedom: calibration.degreesOfFreedom ?? null,
    harmonics: harmonics ?? null,
    touches: calibration.touches ?? null,
  };
}

function resolveMachine(machine: NonNullable<ProfileFile['machine']>): ProfileMachine {
  const { travel } = machine;
  return {
    deceleration: machine.deceleration ?? builtIn.machine.deceleration,
    reactionTime: machine.reactionTime ?? builtIn.machine.reactionTime,
    tripLatency: machine.tripLatency ?? builtIn.machine.tripLatency,
    latchPeriod: machine.latchPeriod ?? builtIn.machine.latchPeriod,
    resolution: machine.resolution ?? builtIn.machine.resolution,
    positioningUncertainty: machine.positioningUncertainty ?? builtIn.machine.positioningUncertainty,
    afterTrip: machine.afterTrip ?? builtIn.machine.afterTrip,
    travel:
      travel === undefined
        ? null
        : { x: travel.x ?? Infinity, y: travel.y ?? Infinity, z: travel.z ?? Infinity },
    spindleOrientation: machine.spindleOrientation ?? builtIn.machine.spindleOrientation,
    temperatureSpread: machine.temperatureSpread ?? null,
    material: machine.material ?? builtIn.machine.material,
  };
}
