import { belongs, edgeOf, type Numbered, type Piece, turnFrom } from './outlinePieces.ts';
import type { Solid } from './solid.ts';

/** The nearest place of the part's surface; a `Part` hands out one and the same object and fills it anew. */
export interface Nearest {
  /** mm; negative inside the part, Infinity where there is no part. */
  distance: number;
  x: number;
  y: number;
  z: number;
  /** Index of the solid whose upright wall it is; -1 on a floor or top, see `materialAt`. */
  solid: number;
}

/** Between two heights every level cut through the part is the same: one region of the plane. */
interface Layer {
  readonly bottom: number;
  readonly top: number;
  readonly solids: readonly Numbered[];
  readonly pieces: readonly Piece[];
  readonly box: Box;
}

interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/**
 * What upright solids make, put on and cut out in their order. Such a part is a stack of layers with upright walls, and
 * the distance to a layer follows from its outline and its heights alone; so distances are exact, outside and inside,
 * also at edges, in corners and over the mouth of a bore, where the usual minimum and maximum over the solids is too small.
 */
export class Part {
  private readonly layers: readonly Layer[];
  private readonly nearest: Nearest = { distance: 0, x: 0, y: 0, z: 0, solid: -1 };
  private flatX = 0;
  private flatY = 0;
  private flatSolid = -1;

  constructor(readonly solids: readonly Solid[]) {
    const heights = [...new Set(solids.flatMap(({ bottom, top }) => [bottom, top]))].sort((a, b) => a - b);
    this.layers = heights.slice(1).flatMap((top, i): Layer[] => {
      const layer = layerOf(solids, heights[i] ?? top, top);
      return layer.pieces.length > 0 ? [layer] : [];
    });
  }

  /** Signed distance of a point to the surface, exact, with the nearest place of it. */
  distanceTo(x: number, y: number, z: number): Nearest {
    const found = this.clearanceOf(x, y, z, z);
    return found.distance > 0 ? found : this.depthOf(x, y, z);
  }

  /** Distance of an upright line from `low` to `high` to the part; 0 where it meets it. The nearest place belongs to it. */
  clearanceOf(x: number, y: number, low: number, high: number): Nearest {
    const { nearest } = this;
    let least = Infinity;
    nearest.solid = -1;
    for (const layer of this.layers) {
      const up = low > layer.top ? low - layer.top : layer.bottom > high ? layer.bottom - high : 0;
      const off = outside(layer.box, x, y);
      if (up * up + off * off >= least) continue;
      const inside = off === 0 && belongs(layer.solids, x, y);
      const square = up * up + (inside ? 0 : this.toEdge(layer, x, y));
      if (square >= least) continue;
      least = square;
      nearest.x = inside ? x : this.flatX;
      nearest.y = inside ? y : this.flatY;
      nearest.z = low > layer.top ? layer.top : Math.max(low, layer.bottom);
      nearest.solid = inside ? -1 : this.flatSolid;
    }
    nearest.distance = Math.sqrt(least);
    return nearest;
  }

  /** For a point in the part: how far it is to what is not the part, as a negative distance. */
  private depthOf(x: number, y: number, z: number): Nearest {
    const { nearest } = this;
    nearest.distance = -Infinity;
    let below = -Infinity;
    for (const layer of this.layers) {
      if (layer.bottom > below) this.depthTo(x, y, z, below, layer.bottom, null);
      this.depthTo(x, y, z, layer.bottom, layer.top, layer);
      below = layer.top;
    }
    this.depthTo(x, y, z, below, Infinity, null);
    return nearest;
  }

  /** Depth of the point against the free part of one layer, or against a gap between layers that is free throughout. */
  private depthTo(x: number, y: number, z: number, bottom: number, top: number, layer: Layer | null): void {
    const { nearest } = this;
    const up = z > top ? z - top : z < bottom ? bottom - z : 0;
    if (-up <= nearest.distance) return;
    const free = layer === null || !belongs(layer.solids, x, y);
    const distance = -Math.sqrt(up * up + (free ? 0 : this.toEdge(layer, x, y)));
    if (distance <= nearest.distance) return;
    nearest.distance = distance;
    nearest.x = free ? x : this.flatX;
    nearest.y = free ? y : this.flatY;
    nearest.z = z > top ? top : Math.max(z, bottom);
    nearest.solid = free ? -1 : this.flatSolid;
  }

  /** The solid whose material lies at a place of the surface, where no upright wall is; -1: none. */
  materialAt(x: number, y: number, z: number): number {
    for (const layer of this.layers)
      if (z >= layer.bottom && z <= layer.top) {
        const solid = faceAt(layer, x, y);
        if (solid >= 0) return solid;
      }
    return -1;
  }

  /** Square of the distance in the plane to the layer's outline; leaves the nearest place in `flatX`, `flatY`. */
  private toEdge(layer: Layer, x: number, y: number): number {
    let least = Infinity;
    for (const piece of layer.pieces) {
      const square =
        piece.kind === 'segment' ? this.toSegment(piece, x, y, least) : this.toArc(piece, x, y, least);
      if (square < least) least = square;
    }
    return least;
  }

  private toSegment(piece: Piece & { kind: 'segment' }, x: number, y: number, least: number): number {
    const along = (x - piece.ax) * piece.ux + (y - piece.ay) * piece.uy;
    const t = along < 0 ? 0 : Math.min(along, piece.length);
    return this.take(piece, x, y, piece.ax + t * piece.ux, piece.ay + t * piece.uy, least);
  }

  private toArc(piece: Piece & { kind: 'arc' }, x: number, y: number, least: number): number {
    const dx = x - piece.x;
    const dy = y - piece.y;
    const away = Math.sqrt(dx * dx + dy * dy);
    const whole = piece.sweep >= 2 * Math.PI - 1e-12;
    if (away > 0 && (whole || turnFrom(piece.start, Math.atan2(dy, dx)) <= piece.sweep)) {
      const share = piece.radius / away;
      return this.take(piece, x, y, piece.x + dx * share, piece.y + dy * share, least);
    }
    return this.toArcEnd(
      piece,
      piece.start + piece.sweep,
      x,
      y,
      this.toArcEnd(piece, piece.start, x, y, least),
    );
  }

  private toArcEnd(
    piece: Piece & { kind: 'arc' },
    angle: number,
    x: number,
    y: number,
    least: number,
  ): number {
    const px = piece.x + piece.radius * Math.cos(angle);
    return this.take(piece, x, y, px, piece.y + piece.radius * Math.sin(angle), least);
  }

  private take(piece: Piece, x: number, y: number, px: number, py: number, least: number): number {
    const square = (x - px) * (x - px) + (y - py) * (y - py);
    if (square >= least) return least;
    this.flatX = px;
    this.flatY = py;
    this.flatSolid = piece.solid;
    return square;
  }
}

function layerOf(solids: readonly Solid[], bottom: number, top: number): Layer {
  const here = solids
    .map((solid, index): Numbered => ({ ...solid, index }))
    .filter((solid) => solid.bottom < top && solid.top > bottom);
  const pieces = here.some((solid) => solid.role === 'add') ? edgeOf(here) : [];
  return { bottom, top, solids: here, pieces, box: boxOf(pieces) };
}

function boxOf(pieces: readonly Piece[]): Box {
  const xs: number[] = [];
  const ys: number[] = [];
  for (const piece of pieces)
    if (piece.kind === 'segment') {
      xs.push(piece.ax, piece.ax + piece.length * piece.ux);
      ys.push(piece.ay, piece.ay + piece.length * piece.uy);
    } else {
      xs.push(piece.x - piece.radius, piece.x + piece.radius);
      ys.push(piece.y - piece.radius, piece.y + piece.radius);
    }
  return { minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) };
}

function outside({ minX, minY, maxX, maxY }: Box, x: number, y: number): number {
  const dx = x < minX ? minX - x : x > maxX ? x - maxX : 0;
  const dy = y < minY ? minY - y : y > maxY ? y - maxY : 0;
  return dx === 0 ? dy : dy === 0 ? dx : Math.sqrt(dx * dx + dy * dy);
}

/** The solid that last put material here. */
function faceAt({ solids }: Layer, x: number, y: number): number {
  let found = -1;
  for (const solid of solids) if (solid.role === 'add' && belongs([solid], x, y)) found = solid.index;
  return found;
}
