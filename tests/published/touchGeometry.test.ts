import { describe, expect, test } from 'vitest';
import { rehearsed } from '../rehearsal/rehearsed.ts';
import { named, referenceCase } from './referenceCase.ts';

const latched = (program: string, setup: object) =>
  rehearsed(program, setup, { options: { faults: [] } }).undisturbed.record.touches.map((t) => t.latched);

/** Cosine, chord and tip compensation as the virtual probe meets them, against the published closed forms. */
describe('touches of true geometry', () => {
  const tip = referenceCase<{ r_mm: number; theta_deg: number }, { error_um: number }>('TIP-1');
  test(named(tip), () => {
    const { theta_deg: theta } = tip.inputs;
    const wall = { add: 'block', min: [-40, -40, -30], max: [0, 40, 30], rotation: theta };
    const setup = { start: [40, 0, -10], part: [wall] };
    const [at = [0, 0, 0]] = latched('G21 G90 G94\nG38.2 X-40 F60\nM2', setup);
    // The wall turns about the block's centre, x = -20: along Y0 its face lies at -20 + 20/cos θ.
    const face = -20 + 20 / Math.cos((theta * Math.PI) / 180);
    const radius = 2;
    // Of a ball of 1 mm in the case; the error grows with the radius.
    expect((at[0] - radius - face) * 1000).toBeCloseTo((tip.expected.error_um * radius) / tip.inputs.r_mm, 6);
  });

  const chord = referenceCase<{ rho_mm: number; e_mm: number }, { shortfall_mm: number }>('CHORD');
  test(named(chord), () => {
    const { rho_mm: rho, e_mm: off } = chord.inputs;
    const bore = { cut: 'bore', center: [0, 0], diameter: 2 * (rho + 2), top: 0, depth: 30 };
    const part = [{ add: 'block', min: [-50, -50, -30], max: [50, 50, 0] }, bore];
    const [right = [0, 0, 0], left = [0, 0, 0]] = latched(
      'G21 G90 G94\nG38.2 X20 F60\nG0 X0\nG38.2 X-20 F60\nG0 X0\nM2',
      { start: [0, off, -10], part },
    );
    expect(2 * rho - (right[0] - left[0])).toBeCloseTo(chord.expected.shortfall_mm, 9);
  });

  const cosine = referenceCase<{ L_mm: number; theta_deg: number }, { error_um: number }>('COS-1');
  test(named(cosine), () => {
    const { L_mm: length, theta_deg: theta } = cosine.inputs;
    const across = Math.tan((theta * Math.PI) / 180) * length;
    // A way that leans by θ is longer than the distance of the faces; its length times cos θ is theirs.
    const wall = { add: 'block', min: [length + 2, -50, -30], max: [length + 60, 50, 30] };
    const [at = [0, 0, 0]] = latched(`G21 G90 G94\nG38.2 X${2 * length} Y${2 * across} F60\nM2`, {
      start: [0, 0, 0],
      part: [wall],
    });
    const way = Math.hypot(at[0], at[1]);
    const perLength = way / length;
    expect((way - way * Math.cos((theta * Math.PI) / 180)) * 1000).toBeCloseTo(
      cosine.expected.error_um * perLength,
      6,
    );
    expect(at[0]).toBeCloseTo(length, 7);
  });
});
