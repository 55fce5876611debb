import { describe, expect, test } from 'vitest';
import { evenly, touched } from '../probe/calibration/touched.ts';
import { ran } from './fakeTerminal.ts';

const lobes = [{ order: 3, cosine: 0.004, sine: 0 }];
const csv = (spindles: readonly number[]) =>
  [
    'direction,x,y,spindle',
    ...touched(
      { lobes },
      spindles.flatMap((spindle) => evenly(12).map((each) => ({ ...each, spindle }))),
    ).map(({ direction, x, y, spindle }) => [direction, x.toFixed(6), y.toFixed(6), spindle].join(',')),
  ].join('\n');
const files = { '/shop/ring.csv': csv([0]), '/shop/turned.csv': csv([0, 60]) };
const calibrated = (name: string, ...argv: string[]) =>
  ran(['calibrate', name, '--reference-diameter', '25', ...argv], { files });

/** Distance of each drawn touch from the middle of the picture, px. */
function drawnRadii(svg: string): number[] {
  const points = [...svg.matchAll(/<circle class="point" cx="([\d.]+)" cy="([\d.]+)"/g)];
  return points.map(([, x, y]) => Math.hypot(Number(x) - 110, Number(y) - 96));
}

/** Distance of the curve from the middle, px, each half degree. */
function curveRadii(svg: string): number[] {
  const path = /<path class="curve" d="M([^"]+)Z"/.exec(svg)?.[1] ?? '';
  return path.split('L').map((point) => {
    const [x, y] = point.split(' ');
    return Math.hypot(Number(x) - 110, Number(y) - 96);
  });
}

describe('--picture', () => {
  test('draws each touch on the fitted curve where nothing spreads, whatever the spindle', async () => {
    for (const [name, count] of [
      ['ring.csv', 12],
      ['turned.csv', 24],
    ] as const) {
      const { out, error, status, file } = await calibrated(name, '--picture', 'radius.svg');
      expect(error).toBe('');
      expect(status).toBe(0);
      expect(out).toContain('Picture: radius.svg.');
      const svg = file('/shop/radius.svg')?.toString() ?? '';
      const points = [...svg.matchAll(/<circle class="point" cx="([\d.]+)" cy="([\d.]+)"/g)];
      expect(points).toHaveLength(count);
      const curve = curveRadii(svg);
      points.forEach(([, x, y], index) => {
        const angle = (Math.atan2(96 - Number(y), Number(x) - 110) * 180) / Math.PI;
        const there = curve[Math.round(2 * (angle + 360)) % 720] ?? 0;
        expect(Math.abs((drawnRadii(svg)[index] ?? 0) - there)).toBeLessThan(0.6);
      });
      expect(Math.max(...curve) - Math.min(...curve)).toBeGreaterThan(20);
    }
  });

  test('has no picture where nothing shows the radius all around, and writes nothing then', async () => {
    const gap = { '/shop/gap.csv': 'direction,x,y\n0,3.0,0\n180,-3.0,0\n' };
    const { status, error, file } = await ran(
      'calibrate gap.csv --reference-kind gap --reference-diameter 10 --write --picture a.svg'.split(' '),
      { files: gap },
    );
    expect(status).toBe(2);
    expect(error).toContain('ring or a plug');
    expect(file('/shop/a.svg')).toBeUndefined();
    expect(file('/shop/probewright.json')).toBeUndefined();
  });

  test.each([
    ['would write over the touches', ['ring.csv', '--picture', 'ring.csv'], 'ends in .svg'],
    ['cannot be written', ['ring.csv', '--picture', 'locked.svg'], 'locked.svg: cannot be written'],
    ['is asked of a verification', ['ring.csv', '--verify', '--picture', 'a.svg'], 'without --verify'],
  ])('is refused where it %s', async (_, [name = '', ...argv], said) => {
    const { status, error, file } = await calibrated(name, ...argv);
    expect(status).toBe(2);
    expect(error).toContain(said);
    expect(file('/shop/ring.csv')?.toString()).toBe(files['/shop/ring.csv']);
  });
});
