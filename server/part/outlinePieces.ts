import { covers, type Outline, type Solid } from './solid.ts';

/** A straight or round piece of the edge of a region of the plane. `solid`: index of the solid that it belongs to. */
export type Piece =
  | {
      readonly kind: 'segment';
      readonly solid: number;
      readonly ax: number;
      readonly ay: number;
      /** Unit vector along it. */
      readonly ux: number;
      readonly uy: number;
      readonly length: number;
    }
  | {
      readonly kind: 'arc';
      readonly solid: number;
      readonly x: number;
      readonly y: number;
      readonly radius: number;
      /** Counter-clockwise from `start` over `sweep`, radians; 2π is the whole circle. */
      readonly start: number;
      readonly sweep: number;
    };

/** A solid with its place in the part's list. */
export type Numbered = Solid & { readonly index: number };

/** Whether a place belongs to what the solids make, put on and cut out in their order. */
export function belongs(solids: readonly Solid[], x: number, y: number): boolean {
  // The last one that covers the place decides.
  for (let i = solids.length - 1; i >= 0; i--) {
    const solid = solids[i];
    if (solid && covers(solid.outline, x, y)) return solid.role === 'add';
  }
  return false;
}

/** The edge of what the solids make, as pieces: each outline is cut where it meets another, and what is no edge is left out. */
export function edgeOf(solids: readonly Numbered[]): Piece[] {
  const whole = solids.flatMap((solid) => piecesOf(solid.outline, solid.index));
  return whole.flatMap((piece) => cutAt(piece, crossings(piece, whole)).filter((p) => isEdge(p, solids)));
}

function piecesOf(outline: Outline, solid: number): Piece[] {
  if (outline.kind === 'circle')
    return [
      {
        kind: 'arc',
        solid,
        x: outline.x,
        y: outline.y,
        radius: outline.radius,
        start: 0,
        sweep: 2 * Math.PI,
      },
    ];
  const [cos, sin] = [Math.cos(outline.angle), Math.sin(outline.angle)];
  const corner = (a: number, b: number): [number, number] => {
    const [dx, dy] = [a * outline.halfX, b * outline.halfY];
    return [outline.x + dx * cos - dy * sin, outline.y + dx * sin + dy * cos];
  };
  const corners = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  return corners.map(([ax, ay], i): Piece => {
    const [bx, by] = corners[(i + 1) % 4] ?? [ax, ay];
    const length = Math.hypot(bx - ax, by - ay);
    return { kind: 'segment', solid, ax, ay, ux: (bx - ax) / length, uy: (by - ay) / length, length };
  });
}

/** Where others cross the piece: distance along a segment, angle from the start along an arc. */
function crossings(piece: Piece, others: readonly Piece[]): number[] {
  return others.filter((other) => other !== piece).flatMap((other) => crossingsWith(piece, other));
}

function crossingsWith(piece: Piece, other: Piece): number[] {
  if (piece.kind === 'segment')
    return other.kind === 'segment' ? segmentWithSegment(piece, other) : segmentWithCircle(piece, other);
  const points = other.kind === 'segment' ? pointsOnSegment(other, piece) : pointsOnCircle(piece, other);
  return points.map(([x, y]) => turnFrom(piece.start, Math.atan2(y - piece.y, x - piece.x)));
}

type Segment = Piece & { kind: 'segment' };
type Arc = Piece & { kind: 'arc' };

function segmentWithSegment(a: Segment, b: Segment): number[] {
  const cross = a.ux * b.uy - a.uy * b.ux;
  const [dx, dy] = [b.ax - a.ax, b.ay - a.ay];
  // Along one line: the other's ends cut this one.
  if (Math.abs(cross) < 1e-12) {
    if (Math.abs(dx * a.uy - dy * a.ux) > 1e-9) return [];
    const first = dx * a.ux + dy * a.uy;
    return [first, first + b.length * (a.ux * b.ux + a.uy * b.uy)];
  }
  return [(dx * b.uy - dy * b.ux) / cross];
}

function segmentWithCircle(segment: Segment, { x, y, radius }: Arc): number[] {
  const foot = (x - segment.ax) * segment.ux + (y - segment.ay) * segment.uy;
  const off = (x - segment.ax) * segment.uy - (y - segment.ay) * segment.ux;
  const half = radius * radius - off * off;
  if (half < 0) return [];
  const root = Math.sqrt(half);
  return [foot - root, foot + root];
}

function pointsOnSegment(segment: Segment, arc: Arc): [number, number][] {
  return segmentWithCircle(segment, arc)
    .filter((t) => t >= -tiny && t <= segment.length + tiny)
    .map((t) => [segment.ax + t * segment.ux, segment.ay + t * segment.uy]);
}

function pointsOnCircle(a: Arc, b: Arc): [number, number][] {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const between = Math.hypot(dx, dy);
  if (between < tiny || between > a.radius + b.radius || between < Math.abs(a.radius - b.radius)) return [];
  const along = (between ** 2 + a.radius ** 2 - b.radius ** 2) / (2 * between);
  const across = Math.sqrt(Math.max(0, a.radius ** 2 - along ** 2));
  const [ux, uy] = [dx / between, dy / between];
  return [across, -across].map((h) => [a.x + along * ux - h * uy, a.y + along * uy + h * ux]);
}

const tiny = 1e-9;

function cutAt(piece: Piece, places: readonly number[]): Piece[] {
  const end = piece.kind === 'segment' ? piece.length : piece.sweep;
  const inner = places.filter((t) => t > tiny && t < end - tiny).sort((a, b) => a - b);
  const cuts = [0, ...inner, end];
  return cuts.slice(1).flatMap((to, i) => {
    const from = cuts[i] ?? 0;
    return to - from < tiny ? [] : [part(piece, from, to)];
  });
}

function part(piece: Piece, from: number, to: number): Piece {
  if (piece.kind === 'arc') return { ...piece, start: piece.start + from, sweep: to - from };
  return {
    ...piece,
    ax: piece.ax + from * piece.ux,
    ay: piece.ay + from * piece.uy,
    length: to - from,
  };
}

/** An edge has the region on one side only; both are looked at a little off its middle. */
function isEdge(piece: Piece, solids: readonly Solid[]): boolean {
  const [x, y, nx, ny] = middleOf(piece);
  const off = 1e-7;
  return belongs(solids, x + off * nx, y + off * ny) !== belongs(solids, x - off * nx, y - off * ny);
}

function middleOf(piece: Piece): [x: number, y: number, nx: number, ny: number] {
  if (piece.kind === 'segment') {
    const half = piece.length / 2;
    return [piece.ax + half * piece.ux, piece.ay + half * piece.uy, piece.uy, -piece.ux];
  }
  const angle = piece.start + piece.sweep / 2;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [piece.x + piece.radius * cos, piece.y + piece.radius * sin, cos, sin];
}

/** The turn from one angle to another, 0 to 2π. */
export function turnFrom(start: number, angle: number): number {
  const turn = (angle - start) % (2 * Math.PI);
  return turn < 0 ? turn + 2 * Math.PI : turn;
}
