import { expect, test } from 'vitest';
import { stemMaterials } from '../../server/probe/materials.ts';
import {
  cantileverCompliance,
  predictedPreTravel,
  stemCompliance,
  tripForce,
  tripForces,
} from '../../server/probe/tripModel.ts';
import { aProbe } from '../probe/aProbe.ts';
import { named, referenceCase } from './referenceCase.ts';

interface SeatInputs {
  readonly Fs_N: number;
  readonly Rc_mm: number;
  readonly L_mm: number;
  readonly d_mm: number;
  readonly E_MPa: number;
}

const probeOf = ({ Fs_N, Rc_mm, L_mm, d_mm = 2 }: Partial<SeatInputs>) =>
  aProbe({
    calibration: null,
    seat: { radius: Rc_mm ?? NaN, preload: Fs_N ?? NaN, angle: 0 },
    stylus: { length: L_mm ?? NaN, stemDiameter: d_mm, material: 'tungsten-carbide' },
  });

const ratio = referenceCase<
  object,
  { ratio: number; directions_low: number; directions_high: number; period_deg: number }
>('PRB-RATIO');

test(named(ratio), () => {
  const probe = aProbe({ calibration: null });
  const forces = Array.from({ length: 360 }, (_, degrees) => tripForce(probe, degrees));
  const [low, high] = [Math.min(...forces), Math.max(...forces)];
  const count = (force: number) => forces.filter((value) => Math.abs(value - force) < 1e-9).length;
  expect(Math.abs(high / low - ratio.expected.ratio)).toBeLessThan(1e-12);
  expect(count(low)).toBe(ratio.expected.directions_low);
  expect(count(high)).toBe(ratio.expected.directions_high);
  for (let degrees = 0; degrees < 240; degrees += 1)
    expect(forces[degrees]).toBeCloseTo(forces[degrees + ratio.expected.period_deg] ?? NaN, 12);
});

const forces = referenceCase<Partial<SeatInputs>, { F_low: number; F_high: number; F_mean: number }>(
  'PRB-FORCE-1',
);

test(named(forces), () => {
  const found = tripForces(probeOf(forces.inputs));
  expect(found.low).toBeCloseTo(forces.expected.F_low, 9);
  expect(found.high).toBeCloseTo(forces.expected.F_high, 9);
  expect(found.mean).toBeCloseTo(forces.expected.F_mean, 9);
});

for (const id of ['PRB-PTV-1', 'PRB-PTV-2']) {
  const preTravel = referenceCase<SeatInputs, { pt_low_um: number; pt_high_um: number; ptv_um: number }>(id);
  test(named(preTravel), () => {
    const probe = probeOf(preTravel.inputs);
    expect(stemMaterials[probe.stylus.material].value).toBe(preTravel.inputs.E_MPa);
    const low = predictedPreTravel(probe, 0) * 1000;
    const high = predictedPreTravel(probe, 60) * 1000;
    expect(low / preTravel.expected.pt_low_um).toBeCloseTo(1, 9);
    expect(high / preTravel.expected.pt_high_um).toBeCloseTo(1, 9);
    expect((high - low) / preTravel.expected.ptv_um).toBeCloseTo(1, 9);
  });
}

const scaling = referenceCase<{ L_ratio: number }, { ptv_ratio: number }>('PRB-PTV-SCALE');

test(named(scaling), () => {
  const variation = (length: number) => {
    const probe = probeOf({ Fs_N: 1, Rc_mm: 7, L_mm: length });
    return predictedPreTravel(probe, 60) - predictedPreTravel(probe, 0);
  };
  const found = variation(40 * scaling.inputs.L_ratio) / variation(40);
  expect(Math.abs(found - scaling.expected.ptv_ratio)).toBeLessThan(1e-12);
});

const shen = referenceCase<{ stylus_mm: number }, { range_um: number }>('PRB-LIT-SHEN');

test(`${named(shen)}: the model's slender 50 mm stylus is of that order and below it`, () => {
  const probe = probeOf({ Fs_N: 1, Rc_mm: 7, L_mm: shen.inputs.stylus_mm });
  const range = (predictedPreTravel(probe, 60) - predictedPreTravel(probe, 0)) * 1000;
  expect(range).toBeLessThan(shen.expected.range_um);
  expect(range).toBeGreaterThan(shen.expected.range_um / 4);
});

for (const id of ['BEAM-1', 'BEAM-3', 'BEAM-5', 'BEAM-6']) {
  const beam = referenceCase<
    { F_N: number; L_mm: number; d_mm: number; E_MPa: number },
    { delta_um: number }
  >(id);
  test(named(beam), () => {
    const { F_N, L_mm, d_mm, E_MPa } = beam.inputs;
    const deflection = F_N * cantileverCompliance(L_mm, d_mm, E_MPa) * 1000;
    expect(deflection / beam.expected.delta_um).toBeCloseTo(1, 9);
  });
}

test('a steel stem of the probe bends as the beam of its modulus (BEAM-3)', () => {
  const { inputs, expected } = referenceCase<{ F_N: number }, { delta_um: number }>('BEAM-3');
  const stylus = { length: 50, stemDiameter: 2, material: 'steel' } as const;
  expect((inputs.F_N * stemCompliance(stylus) * 1000) / expected.delta_um).toBeCloseTo(1, 9);
});
