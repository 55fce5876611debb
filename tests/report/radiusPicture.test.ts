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

test('it refers to nothing outside, is small, has text alternatives and both themes', () => {
  const svg = radiusPicture(lobed, { direction: 0 });
  expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', '')).not.toMatch(
    /https?:|href|url\(|<script|<image/,
  );
  expect(svg.length).toBeLessThan(16_000);
  expect(textOf(svg, 'title')).not.toBe('');
  expect(svg).toContain('prefers-color-scheme:dark');
});

test('text stands out from its ground by 4.5 to 1 in both themes (WCAG 2.1, 1.4.3)', () => {
  const [light = '', dark = ''] = radiusPicture(lobed, { direction: 0 }).split('@media');
  const fill = (sheet: string, selector: string) =>
    new RegExp(`radius-picture ${selector}\\{[^}]*fill:(#[0-9a-f]{6})`).exec(sheet)?.[1] ?? '';
  for (const sheet of [light, dark])
    for (const selector of ['text', '\\.marked'])
      expect(contrast(fill(sheet, selector), fill(sheet, '\\.ground'))).toBeGreaterThan(4.5);
});

function contrast(one: string, other: string): number {
  const [low = NaN, high = NaN] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

function luminance(colour: string): number {
  const [red = NaN, green = NaN, blue = NaN] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
