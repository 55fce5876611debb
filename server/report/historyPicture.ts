import { type ControlLimits, controlLimits } from '../probe/controlLimits.ts';
import { framed, inSvg, niceStep, pictureSheet } from './pictureStyle.ts';
import { type Quantities, quantities } from './quantities.ts';

/** One calibration of a history; `date` as 2025-03-31, lengths in mm, U null where it was not stated. */
export interface HistoryPoint {
  readonly date: string;
  readonly effectiveDiameter: number;
  readonly expandedUncertainty: number | null;
}

/**
 * Calibrations as a line over their days, SVG, 420 by 200: effective diameter with ±U. In both themes like the picture of the
 * radius, with control limits where there are enough of them. An entry whose date cannot be read is left out, and said in the text alternative.
 */
export function historyPicture(entries: readonly HistoryPoint[], units: 'mm' | 'inch' = 'mm'): string {
  const show = quantities(units);
  const dated = entries
    .map((entry) => ({ ...entry, day: Date.parse(entry.date.slice(0, 10)) / 86_400_000 }))
    .filter(({ day, effectiveDiameter }) => Number.isFinite(day) && Number.isFinite(effectiveDiameter))
    .sort((one, other) => one.day - other.day);
  const parts = dated.length === 0 ? [nothing] : plotted(dated, units);
  return framed(
    {
      name: 'history-picture',
      width,
      height,
      title: 'Effective diameter of the probe over its calibrations',
      description: describe(dated, entries.length - dated.length, show),
      sheet: pictureSheet(
        'history-picture',
        [
          ['.line', 'fill:none;stroke:#1f6fb2;stroke-width:1.6'],
          ['.bar', 'fill:none;stroke:#1f6fb2;stroke-width:1.2'],
          ['.limit', 'fill:none;stroke:#b3470f;stroke-dasharray:4 3'],
        ],
        [
          ['.line', 'stroke:#6cb6f0'],
          ['.bar', 'stroke:#6cb6f0'],
          ['.limit', 'stroke:#f2a065'],
        ],
      ),
    },
    parts,
  );
}

type Dated = HistoryPoint & { readonly day: number };

const width = 420;
const height = 200;
const plot = { left: 74, right: 404, top: 24, bottom: 160 };
const nothing = `<text x="${width / 2}" y="${height / 2}" text-anchor="middle">no calibration in the history yet</text>`;

function plotted(entries: readonly Dated[], units: 'mm' | 'inch'): string[] {
  const perUnit = units === 'mm' ? 1 : 25.4;
  const values = entries.map(({ effectiveDiameter, expandedUncertainty }) => ({
    middle: effectiveDiameter / perUnit,
    half: (expandedUncertainty ?? 0) / perUnit,
  }));
  const limits = limitsOf(entries);
  const within = limits === null ? [] : [limits.lower / perUnit, limits.upper / perUnit];
  const ends = values.flatMap(({ middle, half }) => [middle - half, middle + half]);
  const scale = scaleOf([...ends, ...within], units);
  const x = acrossDays(entries);
  const at = entries.map((entry, index) => ({ x: x(entry.day), y: scale.y(values[index]?.middle ?? 0) }));
  const bars = values.flatMap(({ middle, half }, index) =>
    half === 0 ? [] : [errorBar(at[index]?.x ?? 0, scale.y(middle + half), scale.y(middle - half))],
  );
  const line = `<path class="line" d="M${at.map((point) => `${point.x.toFixed(1)} ${point.y.toFixed(1)}`).join('L')}"/>`;
  const points = at.map(
    (point) => `<circle class="point" cx="${point.x.toFixed(1)}" cy="${point.y.toFixed(1)}" r="3"/>`,
  );
  return [
    `<text class="small" x="${plot.left - 6}" y="14" text-anchor="end">D, ${units === 'mm' ? 'mm' : 'in'}</text>`,
    `<text class="small" x="${plot.right}" y="14" text-anchor="end">bars: ±U${limits === null ? '' : ', dashed: control limits'}</text>`,
    ...scale.lines,
    `<path class="axis" d="M${plot.left} ${plot.top}V${plot.bottom}H${plot.right}"/>`,
    ...within.map(
      (value) => `<path class="limit" d="M${plot.left} ${scale.y(value).toFixed(1)}H${plot.right}"/>`,
    ),
    ...bars,
    ...(at.length > 1 ? [line] : []),
    ...points,
    ...dates(entries, x),
  ];
}

/** From fewer calibrations limits would say little. */
const enoughForLimits = 8;

function limitsOf(entries: readonly Dated[]): ControlLimits | null {
  return entries.length < enoughForLimits
    ? null
    : controlLimits(entries.map((entry) => entry.effectiveDiameter));
}

function acrossDays(entries: readonly Dated[]): (day: number) => number {
  const [first = 0, last = 0] = [entries[0]?.day, entries.at(-1)?.day];
  const inset = 24;
  const span = plot.right - plot.left - 2 * inset;
  return (day) => plot.left + inset + (first === last ? span / 2 : (span * (day - first)) / (last - first));
}

interface Scale {
  readonly y: (value: number) => number;
  readonly lines: readonly string[];
}

/** Round values from the least to the greatest, three to six of them. */
function scaleOf(ends: readonly number[], units: 'mm' | 'inch'): Scale {
  const least = units === 'mm' ? 0.001 : 0.00005;
  const span = Math.max(Math.max(...ends) - Math.min(...ends), least);
  const step = niceStep(span / 4);
  const low = Math.floor(Math.min(...ends) / step - 1e-6);
  const high = Math.max(Math.ceil(Math.max(...ends) / step + 1e-6), low + 2);
  const y = (value: number): number =>
    plot.bottom - ((plot.bottom - plot.top) * (value / step - low)) / (high - low);
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const lines = Array.from({ length: high - low + 1 }, (_, index) => {
    const value = (low + index) * step;
    const height = y(value).toFixed(1);
    return `<path class="axis" d="M${plot.left} ${height}H${plot.right}"/><text class="small" x="${plot.left - 6}" y="${(Number(height) + 3).toFixed(1)}" text-anchor="end">${value.toFixed(digits)}</text>`;
  });
  return { y, lines };
}

function errorBar(x: number, top: number, bottom: number): string {
  const [from, to] = [(x - 4).toFixed(1), (x + 4).toFixed(1)];
  return `<path class="bar" d="M${from} ${top.toFixed(1)}H${to}M${x.toFixed(1)} ${top.toFixed(1)}V${bottom.toFixed(1)}M${from} ${bottom.toFixed(1)}H${to}"/>`;
}

/** Pixels that one date takes, with a gap to the next. */
const dateWidth = 66;

/** The last and the first day, and as many between as have room. */
function dates(entries: readonly Dated[], x: (day: number) => number): string[] {
  const last = entries.at(-1);
  if (last === undefined) return [];
  const named = [last];
  let free = Number.NEGATIVE_INFINITY;
  for (const entry of entries) {
    const place = x(entry.day);
    if (place - free < dateWidth || x(last.day) - place < dateWidth) continue;
    named.push(entry);
    free = place;
  }
  return named.map(
    ({ date, day }) =>
      `<text class="small" x="${x(day).toFixed(1)}" y="${plot.bottom + 16}" text-anchor="middle">${inSvg(date.slice(0, 10))}</text>`,
  );
}

function outside(entries: readonly Dated[], show: Quantities): string {
  const limits = limitsOf(entries);
  if (limits === null) return '';
  const out = entries.filter(
    ({ effectiveDiameter }) => effectiveDiameter < limits.lower || effectiveDiameter > limits.upper,
  );
  const days = out.map(({ date }) => date.slice(0, 10)).join(', ');
  const which = out.length === 0 ? 'none is outside' : `outside: ${days}`;
  return ` Control limits ${show.length(limits.lower)} to ${show.length(limits.upper)}: ${which}.`;
}

function describe(entries: readonly Dated[], left: number, show: Quantities): string {
  const [first, last] = [entries[0], entries.at(-1)];
  const omitted =
    left === 0 ? '' : ` ${left} without a date that can be read ${left === 1 ? 'is' : 'are'} left out.`;
  if (first === undefined || last === undefined) return `No calibration is in the history yet.${omitted}`;
  const of = ({ date, effectiveDiameter, expandedUncertainty }: Dated): string =>
    `${show.length(effectiveDiameter)}${expandedUncertainty === null ? '' : ` ±${show.error(expandedUncertainty)}`} on ${date.slice(0, 10)}`;
  if (entries.length === 1) return `One calibration: ${of(first)}.${omitted}`;
  const change = show.signedError(last.effectiveDiameter - first.effectiveDiameter);
  return `${entries.length} calibrations, from ${of(first)} to ${of(last)}: ${change}.${outside(entries, show)}${omitted}`;
}
