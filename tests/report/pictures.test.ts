import { describe, expect, test } from 'vitest';
import { budgetPicture } from '../../server/report/budgetPicture.ts';
import { historyPicture } from '../../server/report/historyPicture.ts';
import { budget, history, pictures } from './samplePictures.ts';

const textOf = (svg: string, tag: string) => new RegExp(`<${tag}>([^<]*)</${tag}>`).exec(svg)?.[1] ?? '';

describe.each(Object.entries(pictures))('%s', (_, svg) => {
  test('refers to nothing outside, is small, has text alternatives and both themes', () => {
    expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', '')).not.toMatch(
      /https?:|href|url\(|<script|<image/,
    );
    expect(svg.length).toBeLessThan(16_000);
    expect(textOf(svg, 'title')).not.toBe('');
    expect(textOf(svg, 'desc')).not.toBe('');
    expect(svg).toContain('role="img"');
    expect(svg).toContain('prefers-color-scheme:dark');
    expect(svg).not.toMatch(/NaN|undefined|Infinity|null/);
  });

  test('text stands out from its ground by 4.5 to 1 in both themes (WCAG 2.1, 1.4.3)', () => {
    const [light = '', dark = ''] = svg.split('@media');
    const fill = (sheet: string, selector: string) =>
      new RegExp(`-picture ${selector}\\{[^}]*fill:(#[0-9a-f]{6})`).exec(sheet)?.[1] ?? '';
    for (const sheet of [light, dark])
      for (const selector of ['text', '\\.marked'])
        expect(contrast(fill(sheet, selector), fill(sheet, '\\.ground'))).toBeGreaterThan(4.5);
  });

  test('no text covers another or leaves the picture', () => {
    const boxes = textBoxes(svg);
    const [, width = '', height = ''] = /viewBox="0 0 (\d+) (\d+)"/.exec(svg) ?? [];
    for (const [index, box] of boxes.entries()) {
      expect(box.left, box.text).toBeGreaterThanOrEqual(0);
      expect(box.right, box.text).toBeLessThanOrEqual(Number(width));
      expect(box.bottom, box.text).toBeLessThanOrEqual(Number(height));
      for (const other of boxes.slice(index + 1)) {
        const apart =
          box.right <= other.left ||
          other.right <= box.left ||
          box.bottom <= other.top ||
          other.bottom <= box.top;
        expect(apart, `${box.text} and ${other.text}`).toBe(true);
      }
    }
  });
});

interface Box {
  readonly text: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** A letter of a plain sans is hardly wider than 0.56 of its size on the mean. */
function textBoxes(svg: string): Box[] {
  return [...svg.matchAll(/<text([^>]*)>([^<]*)<\/text>/g)].flatMap(([, attributes = '', raw = '']) => {
    const text = raw.replace(/&\w+;/g, '.');
    if (text === '') return [];
    const of = (name: string) => new RegExp(`${name}="([^"]*)"`).exec(attributes)?.[1] ?? '';
    const size = of('class').includes('small') ? 9 : 10;
    const [x, y, width] = [Number(of('x')), Number(of('y')), 0.56 * size * text.length];
    const left = of('text-anchor') === 'end' ? x - width : of('text-anchor') === 'middle' ? x - width / 2 : x;
    return [{ text, left, right: left + width, top: y - 0.75 * size, bottom: y + 0.2 * size }];
  });
}

describe('bars', () => {
  const bars = (svg: string) =>
    [...svg.matchAll(/<rect class="(?:curve|mark)"[^>]* width="([\d.]+)"/g)].map((m) => Number(m[1]));

  test('are as long as the standard uncertainties, largest first, and all together last', () => {
    const lengths = bars(budgetPicture(budget));
    const whole = lengths.at(-1) ?? NaN;
    const sizes = budget.components.map((part) => part.standardUncertainty).sort((one, other) => other - one);
    sizes.forEach((size, index) => {
      expect(Math.abs((lengths[index] ?? NaN) / whole - size / budget.standardUncertainty)).toBeLessThan(
        0.001,
      );
    });
    expect(lengths).toHaveLength(sizes.length + 1);
  });

  test('have their numbers, shares of the variance and gaps in the text alternative', () => {
    const text = textOf(budgetPicture(budget), 'desc');
    expect(text).toMatch(/^positioning 5\.0 µm \(\d+ % of the variance\), tip run-out 2\.1 µm/);
    expect(text).toContain('Not included: the uncertainty of the effective diameter');
  });
});

describe('history', () => {
  const points = (svg: string) =>
    [...svg.matchAll(/class="point" cx="([\d.]+)" cy="([\d.]+)"/g)].map((m) => ({
      x: Number(m[1]),
      y: Number(m[2]),
    }));

  test('runs by day, whatever the order of the file: a day apart is hardly apart', () => {
    const found = points(historyPicture(history));
    const days = [0, 80, 82, 366];
    const [first, last] = [found[0]?.x ?? NaN, found[3]?.x ?? NaN];
    days.forEach((day, index) => {
      expect(found[index]?.x).toBeCloseTo(first + ((last - first) * day) / 366, 0);
    });
  });

  test('a larger diameter stands higher, and bars are as long as ±U', () => {
    const svg = historyPicture(history);
    const found = points(svg);
    const perMillimetre = ((found[3]?.y ?? NaN) - (found[0]?.y ?? NaN)) / (3.981 - 3.9788);
    expect(perMillimetre).toBeGreaterThan(0);
    const [, , top = '', bottom = ''] =
      /class="bar" d="M([\d.]+) ([\d.]+)H[\d.]+M[\d.]+ [\d.]+V([\d.]+)/.exec(svg) ?? [];
    expect(Number(bottom) - Number(top)).toBeCloseTo(2 * 0.002 * perMillimetre, 0);
    expect([...svg.matchAll(/class="bar"/g)]).toHaveLength(3);
  });

  test('is told in words', () => {
    expect(textOf(historyPicture(history), 'desc')).toBe(
      '4 calibrations, from 3.981 mm ±2.0 µm on 2025-01-10 to 3.979 mm ±2.1 µm on 2026-01-11: −2.2 µm.',
    );
    expect(
      textOf(
        historyPicture([...history, { date: 'spring', effectiveDiameter: 4, expandedUncertainty: null }]),
        'desc',
      ),
    ).toContain('1 without a date that can be read is left out.');
  });

  test('eight calibrations and more have control limits, and the one outside is named', () => {
    const even = Array.from({ length: 9 }, (_, index) => ({
      date: `2025-0${index + 1}-01`,
      effectiveDiameter: 3.98 + (index % 2) * 0.0001,
      expandedUncertainty: 0.001,
    }));
    expect(historyPicture(even.slice(0, 7))).not.toContain('class="limit"');
    expect(textOf(historyPicture(even), 'desc')).toMatch(/: none is outside\.$/);
    const worn = historyPicture([
      ...even,
      { date: '2025-10-01', effectiveDiameter: 3.97, expandedUncertainty: 0.001 },
    ]);
    expect([...worn.matchAll(/class="limit"/g)]).toHaveLength(2);
    expect(textOf(worn, 'desc')).toMatch(/Control limits 3\.97\d mm to 3\.98\d mm: outside: 2025-10-01\.$/);
    expect(worn).toContain('dashed: control limits');
  });

  test('many calibrations leave room between their dates', () => {
    const many = Array.from({ length: 40 }, (_, index) => ({
      date: `2025-${String(1 + (index % 12)).padStart(2, '0')}-${String(1 + (index % 28)).padStart(2, '0')}`,
      effectiveDiameter: 3.98 + index / 1e5,
      expandedUncertainty: 0.001,
    }));
    const boxes = textBoxes(historyPicture(many)).filter(({ text }) => text.startsWith('2025-'));
    const sorted = boxes.sort((one, other) => one.left - other.left);
    for (const [index, box] of sorted.entries())
      expect(box.right).toBeLessThanOrEqual(sorted[index + 1]?.left ?? 420);
  });
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
