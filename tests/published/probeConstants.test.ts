import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { derivedError } from '../../server/probe/derivedError.ts';
import {
  type PartMaterial,
  partMaterials,
  type StemMaterial,
  stemMaterials,
} from '../../server/probe/materials.ts';
import { readProfile } from '../../server/profile/profile.ts';
import { aProbe } from '../probe/aProbe.ts';
import { derived, touch } from '../probe/aTouch.ts';
import { named, type ReferenceCase, referenceCase, referenceCases } from './referenceCase.ts';

const moduli: readonly (readonly [StemMaterial, string])[] = [
  ['steel', 'K-E-steel_(all_plain_carbon-low_alloy)'],
  ['ceramic', 'K-E-alumina_99.9_pc'],
  ['tungsten-carbide', 'K-E-WC-1'],
  ['carbon-fibre', 'K-E-high-modulus_carbon-epoxy_Vf_0.6_longitudinal'],
];

for (const [material, id] of moduli) {
  const modulus = referenceCase<object, { GPa: number }>(id);
  test(`${named(modulus)}: a stem of ${material}`, () => {
    expectWithin(stemMaterials[material].value / 1000, modulus.expected.GPa, modulus);
  });
}

const expansions: readonly (readonly [PartMaterial, string, string])[] = [
  ['steel', 'K-CTE-ST', 'per_C'],
  ['aluminium', 'K-CTE-AL', 'per_C'],
  ['brass', 'K-CTE-brass_C36000', 'per_C'],
  ['titanium', 'K-CTE-Ti-6Al-4V', 'per_C'],
  ['tungsten-carbide', 'K-CTE-WC', 'per_C_Co'],
];

for (const [material, id, key] of expansions) {
  const expansion = referenceCase<object, Record<string, number>>(id);
  test(`${named(expansion)}: a part of ${material}`, () => {
    expectWithin(partMaterials[material].value, expansion.expected[key] ?? NaN, expansion);
  });
}

test('every other material says that it is from memory', () => {
  const checked = new Set<string>(expansions.map(([material]) => material));
  for (const [material, { source }] of Object.entries(partMaterials))
    if (!checked.has(material)) expect(source).toContain('from memory');
});

const growth = referenceCase<{ L_mm: number; dT_C: number }, { dL_um: number }>('TH-1');

test(`${named(growth)}: half-width of the temperature component of a size`, () => {
  const probe = aProbe({ machine: { temperatureSpread: growth.inputs.dT_C, material: 'steel' } });
  const size = derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1, { size: growth.inputs.L_mm });
  const part = derivedError(probe, size).components.find((component) => component.name === 'temperature');
  expect((part?.standardUncertainty ?? NaN) * Math.sqrt(3) * 1000).toBeCloseTo(growth.expected.dL_um, 9);
});

const inch = referenceCase<object, { mm: number }>('K-INCH');

test(`${named(inch)}: lengths of a profile in inches`, () => {
  const { profile } = readProfile('{"units":"inch","probe":{"tipDiameter":1}}', { path: null, ruleIds: [] });
  expect(profile?.probe.tipDiameter).toBe(inch.expected.mm);
});

test('each case has an id of its own and a source, and is as in the shared collection where that lies beside the repo', () => {
  const ids = referenceCases.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const { source, confirmed } of referenceCases) expect(source && confirmed).not.toBe('');
  const shared = new URL('../../../shared/reference/reference-values.json', import.meta.url);
  if (!existsSync(shared)) return;
  const { cases } = JSON.parse(readFileSync(shared, 'utf8')) as { cases: ReferenceCase<unknown, unknown>[] };
  for (const own of referenceCases) expect(cases.find(({ id }) => id === own.id)).toMatchObject(own);
});

function expectWithin(value: number, expected: number, { tolerance }: ReferenceCase<unknown, unknown>): void {
  if (typeof tolerance === 'string') throw new Error('a number is wanted');
  const within = tolerance.abs ?? (tolerance.rel ?? 0) * Math.abs(expected);
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(within);
}
