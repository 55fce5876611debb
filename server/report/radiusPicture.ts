import type { Probe } from '../probe/probe.ts';
import { framed, type PictureRules, pictureSheet } from './pictureStyle.ts';
import { type Curve, curveOf, everyHalfDegree, type ObservedRadius, signedDeviation } from './radiusCurve.ts';

export interface RadiusPictureOptions {
  /** Approach to mark, degrees from X+; null: none. */
  readonly direction: number | null;
  /** What the touches of a calibration saw, drawn as small circles. */
  readonly observed?: readonly ObservedRadius[];
  /** Unit of the scale: µm, or 0.0001 in. */
  readonly units?: 'mm' | 'inch';
}

/**
 * The effective radius over the direction of approach as a polar picture, SVG, 220 by 220: its deviation from the mean
 * exaggerated, rings to read it by, one direction marked. It brings its own ground, so that it reads in a dark and in a
 * light theme, whichever of the two the viewer tells an image, and refers to nothing outside.
 */
export function radiusPicture(
  probe: Probe,
  { direction, observed = [], units = 'mm' }: RadiusPictureOptions,
): string {
  const curve = curveOf(probe, observed, units, { mean: meanRadius, room });
  return framed(
    {
      name: 'radius-picture',
      width: size,
      height: size,
      title: 'Effective radius of the probe by direction of approach',
      description: describe(probe, curve, direction),
      sheet: pictureSheet('radius-picture', light, dark),
    },
    [
      ...axes(),
      ...rings(curve),
      `<path class="curve" d="${outline(curve)}"/>`,
      ...circles(curve),
      ...(direction === null ? [] : mark(curve, direction)),
      ...legend(probe, curve, direction),
    ],
  );
}

const size = 220;
const centre = { x: 110, y: 96 };
const meanRadius = 50;
/** What the largest deviation may reach to, inwards and outwards. */
const room = 26;

const light: PictureRules = [['.mean', 'fill:none;stroke:#6b6b6b;stroke-dasharray:4 3']];
const dark: PictureRules = [['.mean', 'stroke:#a0a6ae']];

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

function circles({ points, gain }: Curve): string[] {
  return points.map(({ direction, deviation }) => {
    const { x, y } = pointAt(direction, meanRadius + gain * deviation);
    return `<circle class="point" cx="${x.toFixed(1)}" cy="${y.toFixed(1)}" r="3"/>`;
  });
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
      : `rings ${curve.unit.plain(curve.step)} apart (×${larger(curve)}), dashed: mean`;
  const here =
    direction === null || curve.rings === 0
      ? ''
      : `${signedDeviation(curve, curve.deviation(direction))} here`;
  const touches = curve.points.length === 0 ? '' : `circles: ${touchesText(curve)}`;
  const origin = probe.calibration === null ? 'predicted, not calibrated' : '';
  const notes = [here, touches, origin].filter((text) => text !== '').join(', ');
  return [
    `<text class="small" x="110" y="201" text-anchor="middle">${scale}</text>`,
    `<text class="small marked" x="110" y="213" text-anchor="middle">${notes}</text>`,
  ];
}

function describe(probe: Probe, curve: Curve, direction: number | null): string {
  const degrees = everyHalfDegree().sort((left, right) => curve.deviation(left) - curve.deviation(right));
  const at = (angle: number): string => signedDeviation(curve, curve.deviation(angle));
  const isRound =
    Math.abs(curve.deviation(degrees[0] ?? 0)) < 1e-4 &&
    Math.abs(curve.deviation(degrees.at(-1) ?? 0)) < 1e-4;
  const shape = isRound
    ? 'No lobes are known.'
    : `It deviates from its mean by ${at(degrees[0] ?? 0)} to ${at(degrees.at(-1) ?? 0)}.`;
  const marked =
    direction === null
      ? ''
      : ` Marked: ${Number(direction.toFixed(1))}°${isRound ? '' : `, ${at(direction)}`}.`;
  const off = curve.points.map((point) => point.deviation);
  const seen =
    off.length === 0
      ? ''
      : ` ${touchesText(curve)} saw ${signedDeviation(curve, Math.min(...off))} to ${signedDeviation(curve, Math.max(...off))}.`;
  const origin = probe.calibration === null ? ' Predicted, not calibrated.' : '';
  return `${shape}${marked}${seen}${origin}`;
}

function touchesText({ points }: Curve): string {
  return points.length === 1 ? '1 touch' : `${points.length} touches`;
}

/** To two digits. */
function larger({ exaggeration }: Curve): number {
  return Number(exaggeration.toPrecision(2));
}
