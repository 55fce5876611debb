import { type Expression, latched, minus, plus, scaled } from './expression.ts';

export type Axis = 'x' | 'y' | 'z';

export interface Target {
  readonly axis: Axis;
  readonly to: Expression;
}

/** A level line through a place; a coordinate along it is the way from that place. */
export interface Ray {
  readonly base: { readonly x: Expression; readonly y: Expression };
  /** Counter-clockwise from X+, seen from above. */
  readonly degrees: number;
}

/** A level line. */
export type Level = 'x' | 'y' | Ray;

/** What a touch moves along. */
export type Along = Level | 'z';

/** Coordinates of the place at `to` on the line: of a ray both, for the tip may come from beside it. */
export function targetsOn(along: Along, to: Expression): readonly Target[] {
  if (typeof along === 'string') return [{ axis: along, to }];
  const [x, y] = directionOf(along);
  return [
    { axis: 'x', to: plus(along.base.x, scaled(to, x)) },
    { axis: 'y', to: plus(along.base.y, scaled(to, y)) },
  ];
}

/** Where the last touch was latched, as a coordinate along the line. */
export function latchedOn(along: Along): Expression {
  if (typeof along === 'string') return latched(along);
  return sharesOf(along)
    .map(({ axis, share }) => scaled(minus(latched(axis), along.base[axis]), share))
    .reduce(plus);
}

/** The coordinate along the line of its place nearest to the origin of the work offset. */
export function alongFromOrigin(along: Along, at: Expression): Expression {
  if (typeof along === 'string') return at;
  return sharesOf(along).reduce((sum, { axis, share }) => plus(sum, scaled(along.base[axis], share)), at);
}

/** Unit vector of the line towards its + side. */
export function directionOf(along: Along): readonly [number, number, number] {
  if (along === 'z') return [0, 0, 1];
  if (typeof along === 'string') return along === 'x' ? [1, 0, 0] : [0, 1, 0];
  return [cosine(along.degrees), cosine(along.degrees - 90), 0];
}

/** The way of a touch in a few words: "X+", "30 deg". */
export function wayInWords(along: Along, sign: 1 | -1): string {
  if (typeof along === 'string') return `${along.toUpperCase()}${sign > 0 ? '+' : '-'}`;
  const degrees = Math.round(sign > 0 ? along.degrees : along.degrees + 180);
  return `${((degrees % 360) + 360) % 360} deg`;
}

export function sharesOf({ degrees }: Ray): readonly { readonly axis: 'x' | 'y'; readonly share: number }[] {
  return [
    { axis: 'x' as const, share: cosine(degrees) },
    { axis: 'y' as const, share: cosine(degrees - 90) },
  ].filter(({ share }) => share !== 0);
}

/** To as many decimals as a control reads; exact where the line is an axis. */
function cosine(degrees: number): number {
  return Number(Math.cos((degrees * Math.PI) / 180).toFixed(7)) + 0;
}
