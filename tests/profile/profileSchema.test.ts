import Ajv2020 from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { keysOf } from '../../server/profile/definitionWalk.ts';
import { profileSchema } from '../../server/profile/profile.ts';
import { profileDefinition } from '../../server/profile/profileDefinition.ts';
import { problemsOf, ruleIds } from './aProfile.ts';

const schema = profileSchema(ruleIds);
const accepts = new Ajv2020({ strict: true, allErrors: true }).compile(schema);

const everything = {
  $schema: './probewright.schema.json',
  units: 'inch',
  dialect: 'macro',
  probe: {
    tool: 99,
    tipDiameter: 0.236,
    stylus: { length: 2, stemDiameter: 0.16, material: 'ceramic' },
    seat: { radius: 0.3, preload: 2, angle: -30 },
    overtravel: { lateral: 0.2, axial: 0.1 },
    repeatability: 0.00008,
    release: 0.01,
    runout: 0.0002,
    history: 'calibrations.jsonl',
    calibration: {
      date: '2025-03-31',
      spindle: 0,
      effectiveDiameter: 0.2352,
      expandedUncertainty: 0.0001,
      coverageFactor: 2.1,
      feed: 1.5,
      temperature: 21.5,
      residualStandardDeviation: 0.00006,
      degreesOfFreedom: 5,
      harmonics: [{ order: 3, cosine: 0.0001, sine: -0.0001 }],
      touches: 'touches.csv',
    },
  },
  machine: {
    deceleration: 20,
    reactionTime: 0.004,
    tripLatency: 0.0001,
    latchPeriod: 0.0002,
    resolution: 0.00001,
    positioningUncertainty: 0.0003,
    afterTrip: 'returns-to-trip',
    travel: { x: 30, y: 16, z: 20 },
    spindleOrientation: true,
    temperatureSpread: 4,
    material: 'cast-iron',
  },
  feeds: { positioning: 100, search: 30, measuring: 1.5 },
  routines: { parameters: { first: 150, last: 180 } },
  overtravelSafetyFactor: 2.5,
  placementUncertainty: 0.1,
  effectiveDiameterParameter: '#<_probe_diameter>',
  rules: { 'mode-assumed': 'info' },
};

const wrong: readonly object[] = [
  { unit: 'mm' },
  { units: 'cm' },
  { dialect: 'other' },
  { probe: 4 },
  { probe: { tipDiameter: 0 } },
  { probe: { tipDiameter: '4' } },
  { probe: { tool: -1 } },
  { probe: { tool: 2.5 } },
  { probe: { stylus: { material: 'wood' } } },
  { probe: { seat: { preload: 0 } } },
  { probe: { overtravel: { lateral: -1 } } },
  { probe: { repeatability: -0.001 } },
  { probe: { calibration: { effectiveDiameter: -3 } } },
  { probe: { calibration: { date: 'yesterday' } } },
  { probe: { calibration: { coverageFactor: 0 } } },
  { probe: { calibration: { temperature: -300 } } },
  { probe: { calibration: { harmonics: { order: 3 } } } },
  { probe: { calibration: { harmonics: [{}] } } },
  { probe: { calibration: { harmonics: [{ order: 0 }] } } },
  { probe: { calibration: { harmonics: [{ order: 91 }] } } },
  { probe: { calibration: { harmonics: [{ order: 3, amplitude: 1 }] } } },
  { machine: { afterTrip: 'stops' } },
  { machine: { travel: { x: 0 } } },
  { machine: { spindleOrientation: 'yes' } },
  { machine: { deceleration: 0 } },
  { feeds: { measuring: 0 } },
  { routines: { parameters: { first: 33 } } },
  { routines: { parameters: { last: 1000 } } },
  { routines: { parameters: { first: 100.5 } } },
  { overtravelSafetyFactor: 0.5 },
  { effectiveDiameterParameter: '#<>' },
  { rules: { 'no-such-rule': 'off' } },
  { rules: { 'mode-assumed': true } },
];

describe('the schema and the validator are of one mind', () => {
  test('a profile that states everything is right', () => {
    expect(problemsOf(everything)).toEqual([]);
    expect(accepts(everything)).toBe(true);
  });

  test.each(Object.entries(everything))('%s alone is right', (key, value) => {
    const alone = { units: 'inch', [key]: value };
    expect(problemsOf(alone)).toEqual([]);
    expect(accepts(alone)).toBe(true);
  });

  test.each(wrong.map((file) => [JSON.stringify(file), file]))('%s is wrong', (_, file) => {
    expect(problemsOf(file)).not.toEqual([]);
    expect(accepts(file)).toBe(false);
  });
});

test('the full example states every key that there is', () => {
  for (const key of keysOf(profileDefinition(['mode-assumed']))) {
    const value = key
      .split('.')
      .reduce<unknown>((group, part) => Reflect.get(Object(group), part), everything);
    expect(value, key).toBeDefined();
  }
});

interface SchemaNode {
  readonly description?: string;
  readonly default?: unknown;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly items?: SchemaNode;
}

test('every key has a description, and every built-in value stands in the schema', () => {
  const defaults = new Map<string, unknown>();
  const visit = (node: SchemaNode, key: string): void => {
    expect(node.description, key).toMatch(/\.$/);
    if (node.default !== undefined) defaults.set(key, node.default);
    if (node.items) visit(node.items, `${key}[]`);
    for (const [name, child] of Object.entries(node.properties ?? {}))
      visit(child, key === '' ? name : `${key}.${name}`);
  };
  visit(schema as SchemaNode, '');
  expect(Object.fromEntries(defaults)).toEqual({
    units: 'mm',
    'probe.tipDiameter': 4,
    'probe.stylus.length': 50,
    'probe.stylus.material': 'tungsten-carbide',
    'probe.seat.radius': 8,
    'probe.seat.preload': 2.5,
    'probe.overtravel.lateral': 5,
    'probe.overtravel.axial': 3,
    'probe.repeatability': 0.002,
    'probe.release': 0.3,
    'probe.calibration.coverageFactor': 2,
    'machine.deceleration': 100,
    'machine.reactionTime': 0.01,
    'machine.tripLatency': 0.001,
    'machine.latchPeriod': 0.001,
    'machine.resolution': 0.001,
    'machine.positioningUncertainty': 0.01,
    'machine.afterTrip': 'stops-past',
    'machine.spindleOrientation': false,
    'machine.material': 'steel',
    'feeds.positioning': 1500,
    'feeds.search': 200,
    'feeds.measuring': 40,
    'routines.parameters.first': 100,
    'routines.parameters.last': 199,
    overtravelSafetyFactor: 2,
  });
});
