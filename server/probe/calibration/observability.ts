import { conditionNumber, dot, leastSquares } from './leastSquares.ts';
import { type Approach, lobeColumn, lobeRow, rowOf, type Unknowns } from './unknowns.ts';

/** What these approaches can tell apart, decided before anything is touched. */
export interface Observability {
  readonly unknowns: Unknowns;
  readonly condition: number;
  readonly notObservable: readonly UnseenOrder[];
  /** Two feeds or more, and what they change cannot be told from something else. */
  readonly latencyUnseen: boolean;
}

/**
 * Where the lobes of an order go that is not solved for, each as a share of its amplitude at its worst phase
 * (1: by its full size).
 */
export interface UnseenOrder {
  readonly order: number;
  readonly intoRadius: number;
  readonly intoCentre: number;
  readonly intoLatency: number;
  readonly intoOrders: readonly { readonly order: number; readonly share: number }[];
  /** What stays in the residual, root mean square over that of the lobes: of the phase that shows most and the one that shows least. */
  readonly intoResidual: { readonly most: number; readonly least: number };
}

/** Beyond it columns are not told apart (`error-model.md` section 3). */
export const greatestCondition = 20;

/**
 * Chooses the unknowns: an order enters with both phases or not at all, and only while the condition number of the
 * columns, scaled to unit length, stays in bounds and touches suffice. With several spindle angles run-out (order 1)
 * comes first, with several feeds the latency before that.
 */
export function observability(
  approaches: readonly Approach[],
  orders: readonly number[],
  severalSpindles: boolean,
): Observability {
  let unknowns: Unknowns = { latency: false, orders: [] };
  const severalFeeds = approaches.some(({ faster }) => Math.abs(faster) > 1e-9);
  if (severalFeeds && fits(approaches, { ...unknowns, latency: true }))
    unknowns = { ...unknowns, latency: true };
  const unseen: number[] = [];
  for (const order of wanted(orders, severalSpindles)) {
    const more = { ...unknowns, orders: [...unknowns.orders, order] };
    if (shows(approaches, order) && fits(approaches, more)) unknowns = more;
    else unseen.push(order);
  }
  const condition = conditionNumber(design(approaches, unknowns));
  return {
    unknowns,
    condition,
    // Where not even radius and centre can be told apart, nothing is to be said about lobes.
    notObservable:
      condition > greatestCondition ? [] : unseen.map((order) => unseenOrder(approaches, unknowns, order)),
    latencyUnseen: severalFeeds && !unknowns.latency,
  };
}

/** The effect of an order that `unknowns` leaves out; they have to be solvable from these approaches. */
function unseenOrder(approaches: readonly Approach[], unknowns: Unknowns, order: number): UnseenOrder {
  const rows = design(approaches, unknowns);
  const lobes = approaches.map((approach) => lobeRow(approach, order));
  const [cosine, sine] = [0, 1].map((phase) =>
    leastSquares(
      rows,
      lobes.map((pair) => pair[phase] ?? 0),
    ),
  );
  if (cosine === undefined || sine === undefined) throw new Error('An order has two phases.');
  const effect = (...columns: readonly number[]) =>
    phases(
      columns.map((column) => cosine.parameters[column] ?? 0),
      columns.map((column) => sine.parameters[column] ?? 0),
    ).most;
  const residual = phases(cosine.residuals, sine.residuals);
  const whole = Math.sqrt(approaches.length / 2);
  return {
    order,
    intoRadius: effect(0),
    intoCentre: effect(1, 2),
    intoLatency: unknowns.latency ? effect(3) : 0,
    intoOrders: unknowns.orders.map((other, index) => {
      const column = lobeColumn(unknowns, index);
      return { order: other, share: effect(column, column + 1) };
    }),
    intoResidual: { most: residual.most / whole, least: residual.least / whole },
  };
}

export function design(approaches: readonly Approach[], unknowns: Unknowns): number[][] {
  return approaches.map((approach) => rowOf(approach, unknowns));
}

/** Ascending, each once; run-out first where the spindle was turned. */
function wanted(orders: readonly number[], severalSpindles: boolean): number[] {
  return [...new Set(severalSpindles ? [1, ...orders] : orders)].sort((a, b) => a - b);
}

function fits(approaches: readonly Approach[], unknowns: Unknowns): boolean {
  return conditionNumber(design(approaches, unknowns)) <= greatestCondition;
}

/**
 * Scaled to unit length, a phase that no touch meets would be a column of rounding: each phase has to have a share of
 * its full size that is no smaller than what the condition number allows.
 */
function shows(approaches: readonly Approach[], order: number): boolean {
  const lobes = approaches.map((approach) => lobeRow(approach, order));
  const { least } = phases(
    lobes.map(([cosine]) => cosine),
    lobes.map(([, sine]) => sine),
  );
  return least * greatestCondition >= Math.sqrt(approaches.length / 2);
}

/** Largest and smallest length of cos·a + sin·b over all phases: the singular values of the two columns. */
function phases(a: readonly number[], b: readonly number[]): { most: number; least: number } {
  const [aa, ab, bb] = [dot(a, a), dot(a, b), dot(b, b)];
  const middle = (aa + bb) / 2;
  const spread = Math.hypot((aa - bb) / 2, ab);
  return { most: Math.sqrt(middle + spread), least: Math.sqrt(Math.max(0, middle - spread)) };
}

/**
 * The smallest number of evenly spaced touches from which on every number tells this order apart from radius and centre;
 * null where none up to 60 does.
 */
export function touchesThatSee(order: number): number | null {
  const most = 60;
  let from: number | null = null;
  for (let count = most; count >= 3; count -= 1) {
    const even = evenly(count);
    if (!shows(even, order) || !fits(even, { latency: false, orders: [order] })) return from;
    from = count;
  }
  return from;
}

function evenly(count: number): Approach[] {
  return Array.from({ length: count }, (_, index) => ({
    angle: (2 * Math.PI * index) / count,
    turn: 0,
    faster: 0,
  }));
}
