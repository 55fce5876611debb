import type { Solid } from '../part/solid.ts';
import type { Profile } from '../profile/profile.ts';
import { type NominalTouch, nominalTouches } from '../routines/nominalTouches.ts';
import { planOf } from '../routines/plan.ts';
import type { InputValue, Routine, Units } from '../routines/routine.ts';
import { counted } from './counted.ts';
import { framed, inSvg, type PictureRules, pictureSheet } from './pictureStyle.ts';

const width = 300;
const height = 240;
const margin = 34;
/** In the picture: length of an arrow, radius of the ball. */
const arrow = 26;
const largestBall = 16;

/**
 * A routine seen from above, as SVG: the part that it expects, the ball at each touch, the approaches numbered in their order;
 * a touch down Z is a ring. null: the inputs make no routine.
 */
export function routinePicture(
  routine: Routine,
  given: Readonly<Record<string, InputValue>>,
  profile: Profile,
  units: Units,
): string | null {
  const planned = planOf(routine, given, profile, units);
  if ('problems' in planned) return null;
  const { plan, values } = planned;
  const touches = nominalTouches(routine, plan, values);
  const { solids } = routine.part(plan);
  const view = viewOf(touches, plan.tipRadius);
  const frame = {
    name: 'routine',
    width,
    height,
    title: `${routine.title}, seen from above`,
    description: `${counted(touches.length, 'touch', 'touches')}: ${touches.map(wayText).join(', ')}. X to the right, Y up.`,
    sheet: pictureSheet('routine', light, dark),
  };
  return framed(frame, [
    `<clipPath id="within"><rect width="${width}" height="${height}" rx="6"/></clipPath>`,
    `<g clip-path="url(#within)">${solids.map((solid) => solidShape(solid, view)).join('')}</g>`,
    startMark(view),
    ...numbered(touches).map((touch) => touchShape(touch, view, plan.tipRadius)),
    axes,
  ]);
}

const light: PictureRules = [
  ['.add', 'fill:#dcdccf;stroke:#8d8d80'],
  ['.cut', 'fill:#fafaf7;stroke:#8d8d80'],
  ['.ball', 'fill:#1f6fb2;fill-opacity:.25;stroke:#1f6fb2'],
  ['.way', 'stroke:#b3470f;stroke-width:1.6;fill:none'],
  ['.tip', 'fill:#b3470f'],
];
const dark: PictureRules = [
  ['.add', 'fill:#3a3f46;stroke:#7d8590'],
  ['.cut', 'fill:#23262b;stroke:#7d8590'],
  ['.ball', 'fill:#6cb6f0;stroke:#6cb6f0'],
  ['.way', 'stroke:#f2a065'],
  ['.tip', 'fill:#f2a065'],
];

interface View {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

const round = (value: number) => Number(value.toFixed(1));
const across = ({ scale, x }: View, mm: number) => round(width / 2 + scale * (mm - x));
const down = ({ scale, y }: View, mm: number) => round(height / 2 - scale * (mm - y));

/** All touches with the start and some of the part around. */
function viewOf(touches: readonly NominalTouch[], tipRadius: number): View {
  const xs = [0, ...touches.map(({ tip }) => tip[0])];
  const ys = [0, ...touches.map(({ tip }) => tip[1])];
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const spanX = right - left + 4 * tipRadius;
  const spanY = high - low + 4 * tipRadius;
  const scale = Math.min(
    (width - 2 * margin) / spanX,
    (height - 2 * margin) / spanY,
    largestBall / tipRadius,
  );
  return { scale, x: (left + right) / 2, y: (low + high) / 2 };
}

function solidShape({ role, outline }: Solid, view: View): string {
  const [cx, cy] = [across(view, outline.x), down(view, outline.y)];
  if (outline.kind === 'circle')
    return `<circle class="${role}" cx="${cx}" cy="${cy}" r="${round(view.scale * outline.radius)}"/>`;
  const [halfX, halfY] = [round(view.scale * outline.halfX), round(view.scale * outline.halfY)];
  const turned = round((-outline.angle * 180) / Math.PI);
  return `<rect class="${role}" x="${round(cx - halfX)}" y="${round(cy - halfY)}" width="${2 * halfX}" height="${2 * halfY}" transform="rotate(${turned} ${cx} ${cy})"/>`;
}

interface Numbered {
  readonly touch: NominalTouch;
  /** Of the touches at this place from this side. */
  readonly numbers: readonly number[];
}

/** A second pass comes to the same places again. */
function numbered(touches: readonly NominalTouch[]): Numbered[] {
  const places = new Map<string, { touch: NominalTouch; numbers: number[] }>();
  for (const [i, touch] of touches.entries()) {
    const key = [...touch.tip.slice(0, 2), ...touch.direction].map((each) => each.toFixed(2)).join();
    const place = places.get(key) ?? { touch, numbers: [] };
    place.numbers.push(i + 1);
    places.set(key, place);
  }
  return [...places.values()];
}

function touchShape({ touch: { tip, direction }, numbers }: Numbered, view: View, tipRadius: number): string {
  const [x, y] = [across(view, tip[0]), down(view, tip[1])];
  const ball = `<circle class="ball" cx="${x}" cy="${y}" r="${round(Math.max(3, view.scale * tipRadius))}"/>`;
  const [dx, dy] = [direction[0], -direction[1]];
  if (Math.hypot(dx, dy) < 0.5)
    return `${ball}<circle class="tip" cx="${x}" cy="${y}" r="2"/>${label(x, y - 10, numbers)}`;
  const [fromX, fromY] = [round(x - arrow * dx), round(y - arrow * dy)];
  const [sideX, sideY] = [-dy * 3, dx * 3];
  const [backX, backY] = [x - 7 * dx, y - 7 * dy];
  const head = [
    [x, y],
    [backX + sideX, backY + sideY],
    [backX - sideX, backY - sideY],
  ]
    .map((point) => point.map(round).join(','))
    .join(' ');
  return `${ball}<path class="way" d="M${fromX} ${fromY}L${x} ${y}"/><polygon class="tip" points="${head}"/>${label(fromX - 5 * dx, fromY - 9 * dy + 3, numbers, anchorOf(dx))}`;
}

/** Beside an arrow that points sideways, so that it does not lie over it. */
function anchorOf(dx: number): string {
  if (Math.abs(dx) < 0.5) return 'middle';
  return dx > 0 ? 'end' : 'start';
}

function label(x: number, y: number, numbers: readonly number[], anchor = 'middle'): string {
  return `<text text-anchor="${anchor}" x="${round(x)}" y="${round(y)}">${inSvg(numbers.join(', '))}</text>`;
}

function startMark(view: View): string {
  const [x, y] = [across(view, 0), down(view, 0)];
  return `<path class="axis" d="M${x - 6} ${y}h12M${x} ${y - 6}v12"/>`;
}

const axes = `<path class="axis" d="M14 ${height - 14}h22M14 ${height - 14}v-22"/><text class="small" x="38" y="${height - 11}">X</text><text class="small" x="10" y="${height - 40}">Y</text>`;

function wayText({ direction: [x, y, z] }: NominalTouch, index: number): string {
  const ways: readonly (readonly [number, string])[] = [
    [x, 'X'],
    [y, 'Y'],
    [z, 'Z'],
  ];
  const along = ways.find(([share]) => Math.abs(share) > 0.999);
  const way = along
    ? `${along[1]}${along[0] > 0 ? '+' : '−'}`
    : `${Math.round((Math.atan2(y, x) * 180) / Math.PI)}°`;
  return `${index + 1} ${way}`;
}
