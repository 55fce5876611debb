import type { Point, Solid } from '../part/solid.ts';
import { roundThrough } from './roundThrough.ts';
import type { RunRecord } from './runRecord.ts';

/** A place where the part was met. */
interface Face {
  /** Unit vector of the touch, towards the material. */
  readonly way: Point;
  readonly surface: Point;
  /** Height of the tip. */
  readonly tip: number;
}

/** How far from each other faces may lie and still be one, mm. */
const apart = 0.5;
/** What is left standing around a feature, mm. */
const rim = 20;
const thickness = 30;

/**
 * What may stand where a run touched, most likely first: where it touched outwards all round a bore, inwards a cylinder,
 * between two faces a pocket, from outside a block. Empty: the touches belong to no one such shape.
 */
export function shapesOf({ touches }: RunRecord, radius: number): Solid[][] {
  const faces = touches.flatMap(({ direction: way, surface, latched, tripped }): Face[] =>
    surface !== null && tripped && way[2] < 0.3 ? [{ way, surface, tip: latched[2] }] : [],
  );
  const tops = faces.filter(({ way }) => way[2] < -0.7);
  const sides = faces.filter(({ way }) => Math.abs(way[2]) < 0.3);
  if (faces.length === 0 || tops.length + sides.length < faces.length) return [];
  return heightsFor(tops, sides, radius).flatMap((top) => {
    const bottom = Math.min(...faces.map(({ surface, tip }) => Math.min(surface[2], tip))) - thickness;
    const levels = { bottom, top };
    if (sides.length === 0) return [[block(span(tops, 0), span(tops, 1), levels)]];
    return [round(sides, levels), straight(sides, tops, levels)].filter((solids) => solids !== null);
  });
}

interface Levels {
  readonly bottom: number;
  readonly top: number;
}

type Span = readonly [from: number, to: number];

/** Heights that the top may have: that of the faces that were met from above; else so high that the ball meets the sides. */
function heightsFor(tops: readonly Face[], sides: readonly Face[], radius: number): number[] {
  const heights = tops.map(({ surface }) => surface[2]);
  if (heights.length === 0) {
    const tip = Math.max(...sides.map((side) => side.tip));
    return [tip + 2 * radius, tip + 1.3 * radius];
  }
  const highest = Math.max(...heights);
  return highest - Math.min(...heights) < apart ? [highest] : [];
}

/** A bore or a cylinder, where the touches went all round it. */
function round(sides: readonly Face[], levels: Levels): Solid[] | null {
  // Touches that all go about one way go to faces, however round they lie.
  if (!sides.some(({ way: a }) => sides.some(({ way: b }) => a[0] * b[0] + a[1] * b[1] < -0.4))) return null;
  const circle = roundThrough(sides.map(({ surface: [x, y] }) => [x, y]));
  if (circle === null || circle.off > 0.02 * circle.radius) return null;
  const outward = sides.map(
    ({ way, surface }) => way[0] * (surface[0] - circle.x) + way[1] * (surface[1] - circle.y),
  );
  const outline = { kind: 'circle', x: circle.x, y: circle.y, radius: circle.radius } as const;
  if (outward.every((out) => out < 0)) return [{ role: 'add', outline, ...levels }];
  if (!outward.every((out) => out > 0)) return null;
  const reach = circle.radius + rim;
  const around = block([circle.x - reach, circle.x + reach], [circle.y - reach, circle.y + reach], levels);
  return [around, { role: 'cut', outline, ...levels }];
}

/** Faces along the axes: a block, or a block with a pocket where one is touched from within. */
function straight(sides: readonly Face[], tops: readonly Face[], levels: Levels): Solid[] | null {
  const along = ([0, 1] as const).map((axis) => facesAlong(sides, axis));
  const [x, y] = along;
  const all = [...sides, ...tops];
  if (!x || !y || sides.some(({ way }) => Math.max(Math.abs(way[0]), Math.abs(way[1])) < 0.99)) return null;
  if (x === 'several' || y === 'several') return null;
  const isHole = ({ plus, minus }: Faces) => plus !== null && minus !== null && plus > minus;
  if (isHole(x) || isHole(y)) {
    const [inX, inY] = [within(x, span(all, 0)), within(y, span(all, 1))];
    const pocket: Solid = { ...block(inX, inY, levels), role: 'cut' };
    return [block(widened(inX), widened(inY), levels), pocket];
  }
  const [overX, overY] = [material(x, span(all, 0)), material(y, span(all, 1))];
  return [block(overX, overY, levels)];
}

/** Where the faces across an axis lie that were met going along it: up (`plus`) and down. */
interface Faces {
  readonly plus: number | null;
  readonly minus: number | null;
}

function facesAlong(sides: readonly Face[], axis: 0 | 1): Faces | 'several' {
  const places = (sign: 1 | -1) =>
    sides.filter(({ way }) => sign * way[axis] > 0.99).map(({ surface }) => surface[axis]);
  const [plus, minus] = [places(1), places(-1)];
  const differ = (each: readonly number[]) => Math.max(...each) - Math.min(...each) > apart;
  if (differ(plus) || differ(minus)) return 'several';
  return { plus: plus.at(-1) ?? null, minus: minus.at(-1) ?? null };
}

/** What is free between faces that were touched from within. */
function within({ plus, minus }: Faces, touched: Span): Span {
  return [minus ?? touched[0], plus ?? touched[1]];
}

/** Where the material lies that was touched from outside. */
function material({ plus, minus }: Faces, touched: Span): Span {
  return [
    plus ?? Math.min(touched[0], (minus ?? touched[1]) - rim),
    minus ?? Math.max(touched[1], (plus ?? touched[0]) + rim),
  ];
}

/** The stretch of an axis in which was touched, with a rim. */
function span(faces: readonly Face[], axis: 0 | 1): Span {
  const places = faces.map(({ surface }) => surface[axis]);
  return widened([Math.min(...places), Math.max(...places)]);
}

function widened([from, to]: Span): Span {
  return [from - rim, to + rim];
}

function block([minX, maxX]: Span, [minY, maxY]: Span, levels: Levels): Solid {
  const outline = {
    kind: 'rectangle',
    x: (minX + maxX) / 2,
    y: (minY + maxY) / 2,
    halfX: (maxX - minX) / 2,
    halfY: (maxY - minY) / 2,
    angle: 0,
  } as const;
  return { role: 'add', outline, ...levels };
}
