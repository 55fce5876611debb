import { effectiveRadius, meanEffectiveRadius } from '../probe/effectiveRadius.ts';
import type { Probe } from '../probe/probe.ts';

export interface RadiusPictureOptions {
  /** Approach to mark, degrees from X+; null: none. */
  readonly direction: number | null;
  /** Unit of the scale: µm, or 0.0001 in. */
  readonly units?: 'mm' | 'inch';
}

/**
 * The effective radius over the direction of approach as a polar picture, SVG, 220 by 220: its deviation from the mean
 * exaggerated, rings to read it by, one direction marked. It brings its own ground, so that it reads in a dark and in a
 * light theme, whichever of the two the viewer tells an image, and refers to nothing outside.
 */
export function radiusPicture(probe: Probe, { direction, units = 'mm' }: RadiusPictureOptions): string {
  const curve = curveOf(probe, units);
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${size}" height="${size}" viewBox="0 0 ${size} ${size}" class="radius-picture" role="img">`,
    `<title>Effective radius of the probe by direction of approach</title>`,
    `<desc>${describe(probe, curve, direction)}</desc>`,
    `<style>${styleSheet()}</style>`,
    `<rect class="ground" width="${size}" height="${size}" rx="6"/>`,
    ...axes(),
    ...rings(curve),
    `<path class="curve" d="${outline(curve)}"/>`,
    ...(direction === null ? [] : mark(curve, direction)),
    ...legend(probe, curve, direction),
    '</svg>',
  ].join('');
}

const size = 220;
const centre = { x: 110, y: 96 };
const meanRadius = 50;
/** What the largest deviation may reach to, inwards and outwards. */
const room = 26;

const light: readonly (readonly [string, string])[] = [
  ['.ground', 'fill:#fafaf7;stroke:#c9c9c2'],
  ['text', 'font:10px system-ui,sans-serif;fill:#3a3a3a'],
  ['.small', 'font-size:9px'],
  ['.axis', 'stroke:#b5b5ae;stroke-width:.7'],
  ['.ring', 'fill:none;stroke:#b5b5ae;stroke-width:.7'],
  ['.mean', 'fill:none;stroke:#6b6b6b;stroke-dasharray:4 3'],
  ['.curve', 'fill:#1f6fb2;fill-opacity:.12;stroke:#1f6fb2;stroke-width:1.8;stroke-linejoin:round'],
  ['.mark', 'stroke:#b3470f;fill:#b3470f;stroke-width:1.6'],
  ['.marked', 'fill:#a03e0c'],
];

const dark: readonly (readonly [string, string])[] = [
  ['.ground', 'fill:#23262b;stroke:#454a52'],
  ['text', 'fill:#d7d9dc'],
  ['.axis', 'stroke:#555b64'],
  ['.ring', 'stroke:#555b64'],
  ['.mean', 'stroke:#a0a6ae'],
  ['.curve', 'fill:#6cb6f0;stroke:#6cb6f0'],
  ['.mark', 'stroke:#f2a065;fill:#f2a065'],
  ['.marked', 'fill:#f2a065'],
];

/** Rules inside an SVG reach the whole page that it is put into, so each names the picture. */
function styleSheet(): string {
  const scoped = (rules: typeof light): string =>
    rules.map(([selector, body]) => `.radius-picture ${selector}{${body}}`).join('');
  return `${scoped(light)}@media(prefers-color-scheme:dark){${scoped(dark)}}`;
}

interface Curve {
  readonly unit: Unit;
  /** Deviation of the effective radius from its mean, in units, at a direction in degrees. */
  readonly deviation: (degrees: number) => number;
  /** Units from one ring to the next. */
  readonly step: number;
  /** Rings on each side of the mean; 0: the radius is the same in every direction. */
  readonly rings: number;
  /** Pixels for one unit. */
  readonly gain: number;
}

interface Unit {
  readonly millimetres: number;
  /** A whole or round number of units. */
  readonly plain: (value: number) => string;
  /** To a tenth of a unit, without sign. */
  readonly fine: (value: number) => string;
}

const scales: Readonly<Record<'mm' | 'inch', Unit>> = {
  mm: {
    millimetres: 0.001,
    plain: (value) => `${Number(value.toPrecision(3))} µm`,
    fine: (value) => `${value.toFixed(1)} µm`,
  },
  inch: {
    millimetres: 0.00254,
    plain: (value) => `${trimmed((value / 10_000).toFixed(8))} in`,
    fine: (value) => `${(value / 10_000).toFixed(5)} in`,
  },
};

function curveOf(probe: Probe, units: 'mm' | 'inch'): Curve {
  const unit = scales[units];
  const mean = meanEffectiveRadius(probe, 0, 'towards');
  const deviation = (degrees: number): number =>
    (effectiveRadius(probe, degrees, 0, 'towards') - mean) / unit.millimetres;
  const largest = Math.max(...everyHalfDegree().map((degrees) => Math.abs(deviation(degrees))));
  // A tenth of a nanometre is rounding, not lobes.
  if (largest * unit.millimetres < 1e-7) return { unit, deviation: () => 0, step: 0, rings: 0, gain: 0 };
  const step = niceStep(largest / 2);
  const rings = Math.ceil(largest / step - 1e-9);
  return { unit, deviation, step, rings, gain: room / (rings * step) };
}

/** The least of 1, 2, 5 times a power of ten that is not under this. */
function niceStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least));
  const factor = [1, 2, 5].find((candidate) => candidate * power >= least * (1 - 1e-9)) ?? 10;
  return factor * power;
}

function everyHalfDegree(): number[] {
  return Array.from({ length: 720 }, (_, index) => index / 2);
}

function pointAt(degrees: number, radius: number): { x: number; y: number } {
  const angle = (degrees * Math.PI) / 180;
  return { x: centre.x + radius * Math.cos(angle), y: centre.y - radius * Math.sin(angle) };
}

function coordinates(degrees: number, radius: number): string {
  const { x, y } = pointAt(degrees, radius);
  return `${x.toFixed(1)} ${y.toFixed(1)}`;
}

function outline({ deviation, gain }: Curve): string {
  const points = everyHalfDegree().map((degrees) =>
    coordinates(degrees, meanRadius + gain * deviation(degrees)),
  );
  return `M${points.join('L')}Z`;
}

function rings({ rings: count, step, gain }: Curve): string[] {
  const parts = [`<circle class="mean" cx="${centre.x}" cy="${centre.y}" r="${meanRadius}"/>`];
  for (let index = -count; index <= count; index += 1) {
    const radius = (meanRadius + index * step * gain).toFixed(1);
    if (index !== 0) parts.push(`<circle class="ring" cx="${centre.x}" cy="${centre.y}" r="${radius}"/>`);
  }
  return parts;
}

function axes(): string[] {
  const reach = meanRadius + room + 4;
  const names = ['X+', 'Y+', 'X−', 'Y−'];
  const lines = [0, 90].map(
    (degrees) =>
      `<path class="axis" d="M${coordinates(degrees, reach)}L${coordinates(degrees + 180, reach)}"/>`,
  );
  const labels = names.map((name, index) => {
    const { x, y } = pointAt(index * 90, reach + 8);
    return `<text x="${x.toFixed(1)}" y="${(y + 3.5).toFixed(1)}" text-anchor="middle">${name}</text>`;
  });
  return [...lines, ...labels];
}

/** An arrow along the approach, from the middle to the curve, and a dot where it ends. */
function mark({ deviation, gain }: Curve, direction: number): string[] {
  const end = meanRadius + gain * deviation(direction);
  const head = [
    coordinates(direction, end),
    coordinates(direction + 8, end - 9),
    coordinates(direction - 8, end - 9),
  ].join('L');
  return [
    `<path class="mark" d="M${coordinates(direction, 6)}L${coordinates(direction, end - 7)}"/>`,
    `<path class="mark" d="M${head}Z"/>`,
    `<circle class="mark" cx="${centre.x}" cy="${centre.y}" r="2"/>`,
  ];
}

function legend(probe: Probe, curve: Curve, direction: number | null): string[] {
  const scale =
    curve.rings === 0
      ? 'no lobes known: the same in all directions'
      : `rings ${curve.unit.plain(curve.step)} apart, dashed: the mean`;
  const here = direction === null || curve.rings === 0 ? '' : `${signed(curve, direction)} here`;
  const origin = probe.calibration === null ? 'predicted, not calibrated' : '';
  const notes = [here, origin].filter((text) => text !== '').join(', ');
  return [
    `<text class="small" x="110" y="201" text-anchor="middle">${scale}</text>`,
    `<text class="small marked" x="110" y="213" text-anchor="middle">${notes}</text>`,
  ];
}

function describe(probe: Probe, curve: Curve, direction: number | null): string {
  const degrees = everyHalfDegree().sort((left, right) => curve.deviation(left) - curve.deviation(right));
  const spread = `by ${signed(curve, degrees[0] ?? 0)} to ${signed(curve, degrees.at(-1) ?? 0)}`;
  const shape = curve.rings === 0 ? 'No lobes are known.' : `It deviates from its mean ${spread}.`;
  const marked =
    direction === null
      ? ''
      : ` Marked: ${Number(direction.toFixed(1))}°${curve.rings === 0 ? '' : `, ${signed(curve, direction)}`}.`;
  const origin = probe.calibration === null ? ' Predicted, not calibrated.' : '';
  return `${shape}${marked}${origin}`;
}

/** The deviation in this direction, with its sign and unit. */
function signed({ deviation, unit }: Curve, direction: number): string {
  const value = deviation(direction);
  const text = unit.fine(Math.abs(value));
  if (!/[1-9]/.test(text)) return text;
  return value < 0 ? `−${text}` : `+${text}`;
}

function trimmed(decimal: string): string {
  return decimal.replace(/\.?0+$/, '');
}
