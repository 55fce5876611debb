import { describe, expect, test } from 'vitest';
import { observability, touchesThatSee } from '../../../server/probe/calibration/observability.ts';
import { approachesOf, severalSpindles } from '../../../server/probe/calibration/unknowns.ts';
import { evenly, type Touched } from './touched.ts';

function seen(layout: readonly Touched[], orders: readonly number[] = [3]) {
  const touches = layout.map(({ direction, speed = null, spindle = null }) => ({
    direction,
    speed,
    spindle,
  }));
  return observability(approachesOf(touches), orders, severalSpindles(touches));
}

const unseen = (layout: readonly Touched[], orders?: readonly number[]) =>
  seen(layout, orders).notObservable.map(({ order }) => order);

describe('even spacing (error-model.md, section 3)', () => {
  test.each([3, 4, 6])('%i touches cannot see order 3', (count) => {
    expect(unseen(evenly(count))).toEqual([3]);
  });

  test.each([5, 7, 8, 9, 10, 11, 12, 24])('%i touches see it', (count) => {
    expect(unseen(evenly(count))).toEqual([]);
  });

  test('seven and more see order 3, thirteen and more order 6, none run-out', () => {
    expect([3, 6, 1].map(touchesThatSee)).toEqual([7, 13, null]);
  });

  test('order 6 not with 12', () => {
    expect(unseen(evenly(12), [3, 6])).toEqual([6]);
    expect(unseen(evenly(13), [3, 6])).toEqual([]);
  });

  test('four turn it into a shift of the centre by its full size, three into the radius', () => {
    expect(seen(evenly(4)).notObservable[0]?.intoCentre).toBeCloseTo(1, 12);
    expect(seen(evenly(4)).notObservable[0]?.intoRadius).toBeCloseTo(0, 12);
    expect(seen(evenly(3)).notObservable[0]?.intoRadius).toBeCloseTo(1, 12);
  });

  test('six see one phase', () => {
    const [order] = seen(evenly(6)).notObservable;
    expect(order?.intoResidual.most).toBeGreaterThan(1);
    expect(order?.intoResidual.least).toBeCloseTo(0, 12);
    expect(order?.intoCentre).toBeCloseTo(0, 12);
  });
});

test('six touches that nearly stand even do not see order 3 by their errors of a degree', () => {
  const layout = evenly(6).map(({ direction }, index) => ({ direction: direction + (index % 2) }));
  expect(unseen(layout)).toEqual([3]);
});

test('feeds that go with the directions leave no latency', () => {
  const each = (speed: (index: number) => number) =>
    evenly(8).map((touch, index) => ({ ...touch, speed: speed(index) }));
  const mixed = seen(each((index) => (index % 2) + 1));
  expect(mixed.unknowns.latency).toBe(true);
  const half = seen([...evenly(4).map((touch) => ({ ...touch, speed: 1 })), { direction: 45, speed: 2 }], []);
  expect(half.unknowns.latency).toBe(true);
  const none = seen(
    [0, 120, 240].map((direction, index) => ({ direction, speed: index === 0 ? 2 : 1 })),
    [],
  );
  expect(none).toMatchObject({ latencyUnseen: true, unknowns: { latency: false } });
});

test('run-out enters with a second spindle angle alone; a whole turn is no second', () => {
  const at = (spindle: number) => evenly(7).map((touch) => ({ ...touch, spindle }));
  expect(seen([...at(0), ...at(180)]).unknowns.orders).toEqual([1, 3]);
  expect(seen([...at(0), ...at(360)]).unknowns.orders).toEqual([3]);
  expect(seen(at(90)).unknowns.orders).toEqual([3]);
});
