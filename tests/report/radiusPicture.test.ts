import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { radiusPicture } from '../../server/report/radiusPicture.ts';
import { aProbe } from '../probe/aProbe.ts';

const lobed = aProbe({ calibration: { harmonics: [{ order: 3, cosine: 0.003, sine: 0 }] } });

/** Distance of each point of the curve from its middle, and its direction in degrees, as a reader measures them. */
function measured(svg: string): readonly { degrees: number; radius: number }[] {
  const path = /class="curve" d="M([^"]*)Z"/.exec(svg)?.[1] ?? '';
  const circle = /class="mean" cx="([\d.]+)" cy="([\d.]+)"/.exec(svg) ?? [];
  const [x0, y0] = [Number(circle[1]), Number(circle[2])];
  return path.split('L').map((point) => {
    const [x, y] = point.split(' ').map(Number);
    const [right, up] = [(x ?? NaN) - x0, y0 - (y ?? NaN)];
    return { degrees: (Math.atan2(up, right) * 180) / Math.PI, radius: Math.hypot(right, up) };
  });
}

const ringsOf = (svg: string) =>
  [...svg.matchAll(/class="ring"[^>]* r="([\d.]+)"/g)].map((match) => Number(match[1]));

const textOf = (svg: string, tag: string) => new RegExp(`<${tag}>([^<]*)</${tag}>`).exec(svg)?.[1] ?? '';

describe('the curve can be read against its rings', () => {
  test('rings 2 µm apart: a lobe of 3 µm lies one and a half rings out in X+, and in again at 60°', () => {
    const svg = radiusPicture(lobed, { direction: null });
    expect(svg).toContain('rings 2 µm apart');
    const rings = [...ringsOf(svg), 50].sort((a, b) => a - b);
    expect(rings).toHaveLength(5);
    const ring = ((rings[4] ?? NaN) - (rings[0] ?? NaN)) / 4;
    const points = measured(svg);
    const at = (degrees: number) =>
      points.reduce((best, point) =>
        Math.abs(point.degrees - degrees) < Math.abs(best.degrees - degrees) ? point : best,
      );
    expect(Math.abs(at(0).radius - 50 - 1.5 * ring)).toBeLessThan(0.2);
    expect(Math.abs(at(60).radius - 50 + 1.5 * ring)).toBeLessThan(0.2);
    expect(Math.abs(at(90).radius - 50)).toBeLessThan(0.3);
  });

  test('whatever the lobes, they stay within the picture and its rings', () => {
    const small = fc.double({ min: -0.02, max: 0.02, noNaN: true });
    const harmonic = fc.record({ order: fc.integer({ min: 1, max: 20 }), cosine: small, sine: small });
    fc.assert(
      fc.property(
        fc.array(harmonic, { maxLength: 4 }),
        fc.double({ min: -360, max: 360, noNaN: true }),
        (harmonics, direction) => {
          const svg = radiusPicture(aProbe({ calibration: { harmonics } }), { direction });
          const rings = ringsOf(svg);
          const [least, most] = [Math.min(50, ...rings), Math.max(50, ...rings)];
          for (const { radius } of measured(svg)) {
            expect(radius).toBeGreaterThan(least - 0.2);
            expect(radius).toBeLessThan(most + 0.2);
          }
          expect(svg).not.toMatch(/NaN|undefined|Infinity/);
        },
      ),
      { numRuns: 50 },
    );
  });
});

describe('the marked direction', () => {
  test('is told with its deviation, in the units asked for', () => {
    expect(radiusPicture(lobed, { direction: 180 })).toContain('−3.0 µm here');
    expect(radiusPicture(lobed, { direction: 0, units: 'inch' })).toContain('+0.00012 in here');
    expect(textOf(radiusPicture(lobed, { direction: 60 }), 'desc')).toBe(
      'It deviates from its mean by −3.0 µm to +3.0 µm. Marked: 60°, −3.0 µm.',
    );
  });

  test('ends on the curve', () => {
    const svg = radiusPicture(lobed, { direction: 90 });
    const head = /class="mark" d="M([\d.]+) ([\d.]+)L[^"]*Z"/.exec(svg) ?? [];
    expect(Number(head[1])).toBeCloseTo(110, 1);
    expect(Number(head[2])).toBeCloseTo(96 - 50, 1);
  });

  test('is left out where there is none', () => {
    expect(radiusPicture(lobed, { direction: null })).not.toMatch(/class="mark"|here/);
  });
});

describe('what is known of the lobes', () => {
  test('a prediction says so', () => {
    const svg = radiusPicture(aProbe({ calibration: null }), { direction: 0 });
    expect(svg).toContain('predicted, not calibrated');
    expect(textOf(svg, 'desc')).toContain('Predicted, not calibrated.');
  });

  test('a calibration without lobes is a circle that says so', () => {
    const svg = radiusPicture(aProbe({ calibration: { harmonics: null } }), { direction: 30 });
    expect(svg).toContain('no lobes known');
    expect(ringsOf(svg)).toEqual([]);
    for (const { radius } of measured(svg)) expect(Math.abs(radius - 50)).toBeLessThan(0.1);
  });
});

describe('what the touches of a calibration saw', () => {
  const observed = [0, 90, 180, 270].map((direction) => ({
    direction,
    effectiveRadius: 1.99 + direction / 1e5,
  }));
  const svg = radiusPicture(lobed, { direction: null, observed });

  test('stands at its direction, as far out as the rings say', () => {
    const circles = [...svg.matchAll(/class="point" cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => ({
      right: Number(x) - 110,
      up: 96 - Number(y),
    }));
    expect(circles).toHaveLength(4);
    // 1.8 µm out at 180°, between rings 2 µm apart.
    const ring = ((ringsOf(svg).at(-1) ?? NaN) - 50) / 2;
    expect(circles[2]?.right).toBeCloseTo(-(50 + 0.9 * ring), 0);
    expect(circles[1]?.up).toBeCloseTo(50 + 0.45 * ring, 0);
  });

  test('is told in words, and how much larger deviations are drawn', () => {
    expect(svg).toContain('circles: 4 touches');
    expect(textOf(svg, 'desc')).toContain('4 touches saw 0.0 µm to +2.7 µm.');
    // 26 px for 4 µm beside 50 px for 1.99 mm.
    expect(svg).toContain(`(×${Number((26 / 0.004 / (50 / 1.99)).toPrecision(2))})`);
  });

  test('has rings of its own where no lobes are known', () => {
    const round = radiusPicture(aProbe({ calibration: { harmonics: null } }), { direction: 30, observed });
    expect(ringsOf(round).length).toBeGreaterThan(2);
    expect(textOf(round, 'desc')).toContain('No lobes are known.');
  });

  test('may be far off without leaving the picture', () => {
    const far = radiusPicture(lobed, {
      direction: null,
      observed: [{ direction: 10, effectiveRadius: 2.5 }],
    });
    const [, x = '', y = ''] = /class="point" cx="([\d.]+)" cy="([\d.]+)"/.exec(far) ?? [];
    expect(Math.hypot(Number(x) - 110, Number(y) - 96)).toBeLessThan(50 + 26 + 0.2);
  });
});
