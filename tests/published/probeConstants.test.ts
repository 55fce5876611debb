import { existsSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { derivedError } from '../../server/probe/derivedError.ts';
import {
  type PartMaterial,
  partMaterials,
  type StemMaterial,
  stemMaterials,
} from '../../server/probe/materials.ts';
import { predict } from '../../server/probe/prediction.ts';
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
  ['alloy-steel', 'K-CTE-steel_4140-4340', 'per_C'],
  ['martensitic-stainless-steel', 'K-CTE-stainless_440A', 'per_C'],
  ['aluminium', 'K-CTE-AL', 'per_C'],
  ['brass', 'K-CTE-brass_C36000', 'per_C'],
  ['titanium', 'K-CTE-Ti-6Al-4V', 'per_C'],
  ['tungsten-carbide', 'K-CTE-WC', 'per_C_Co'],
  ['alumina', 'K-CTE-alumina_99.9_pc', 'per_C'],
  ['silicon-nitride', 'K-CTE-silicon_nitride_sintered', 'per_C'],
  ['zirconia', 'K-CTE-zirconia_3_molpc_Y2O3', 'per_C'],
  ['silicon', 'K-CTE-SI', 'per_C'],
  ['carbon-fibre', 'K-CTE-high-modulus_carbon-epoxy_Vf_0.6_longitudinal', 'per_C'],
];

for (const [material, id, key] of expansions) {
  const expansion = referenceCase<object, Record<string, number>>(id);
  test(`${named(expansion)}: a part of ${material}`, () => {
    expectWithin(partMaterials[material].value, expansion.expected[key] ?? NaN, expansion);
  });
}

/** Relatives that one name stands for; how far they may be off, 1/K. */
const relatives: readonly (readonly [PartMaterial, string])[] = [
  ['steel', 'K-CTE-steel_A36-1020'],
  ['steel', 'K-CTE-steel_1040'],
  ['aluminium', 'K-CTE-aluminium_6061'],
  ['aluminium', 'K-CTE-aluminium_7075'],
  ['brass', 'K-CTE-brass_C26000'],
  ['carbon-fibre', 'K-CTE-carbon_fibre_std_modulus_longitudinal'],
];

for (const [material, id] of relatives) {
  const expansion = referenceCase<object, { per_C: number }>(id);
  test(`${named(expansion)}: ${material} stands for it within 0.6 µm on 100 mm and 10 K`, () => {
    expect(Math.abs(partMaterials[material].value - expansion.expected.per_C)).toBeLessThanOrEqual(0.61e-6);
  });
}

/** What else is sold under the name of a stem's material. */
const otherStems: readonly (readonly [StemMaterial, string])[] = [
  ['ceramic', 'K-E-alumina_96_pc'],
  ['ceramic', 'K-E-zirconia_3_molpc_Y2O3'],
  ['carbon-fibre', 'K-E-carbon_fibre_standard_modulus'],
  ['carbon-fibre', 'K-E-carbon_fibre_high_modulus'],
];

for (const [material, id] of otherStems) {
  const modulus = referenceCase<object, { GPa: number }>(id);
  test(`${named(modulus)}: the uncertainty of a prediction for ${material} covers it`, () => {
    const { preTravel, standardUncertainty } = predict(
      aProbe({ calibration: null, stylus: { length: 50, stemDiameter: 2, material } }),
    );
    // Pre-travel goes with the inverse of the modulus.
    const other = preTravel.mean * (stemMaterials[material].value / 1000 / modulus.expected.GPa);
    expect(Math.abs(other - preTravel.mean)).toBeLessThan(1.96 * standardUncertainty);
  });
}

const soft = referenceCase<object, { GPa: number }>('K-E-aluminium_6061');
test(`${named(soft)}: no stem material that is offered is as soft`, () => {
  for (const { value } of Object.values(stemMaterials))
    expect(value / 1000).toBeGreaterThan(3 * soft.expected.GPa - 1);
});

test('every other material says that it is from memory', () => {
  const checked = new Set<string>(expansions.map(([material]) => material));
  for (const [material, { source }] of Object.entries(partMaterials))
    if (!checked.has(material)) expect(source).toContain('from memory');
});

for (const [id, material] of [
  ['TH-1', 'steel'],
  ['TH-3', 'tungsten-carbide'],
] as const) {
  const growth = referenceCase<{ L_mm: number; dT_C: number }, { dL_um: number }>(id);
  test(`${named(growth)}: half-width of the temperature component of a size`, () => {
    const probe = aProbe({ machine: { temperatureSpread: growth.inputs.dT_C, material } });
    const size = derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1, { size: growth.inputs.L_mm });
    const part = derivedError(probe, size).components.find((component) => component.name === 'temperature');
    expect((part?.standardUncertainty ?? NaN) * Math.sqrt(3) * 1000).toBeCloseTo(growth.expected.dL_um, 9);
  });
}

test('a part that shrinks when it warms is as uncertain as one that grows', () => {
  const probe = aProbe({ machine: { temperatureSpread: 10, material: 'carbon-fibre' } });
  const size = derived([touch(1, 'x', 1), touch(-1, 'x', -1)], 1, { size: 200 });
  const part = derivedError(probe, size).components.find((component) => component.name === 'temperature');
  expect(part?.standardUncertainty).toBeCloseTo((0.5e-6 * 10 * 200) / Math.sqrt(3), 12);
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
