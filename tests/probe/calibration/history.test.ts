import { describe, expect, test } from 'vitest';
import { appendToHistory, readHistory, roundedEntry } from '../../../server/probe/calibration/readHistory.ts';
import { historyOf, type PastCalibration, straightLine } from '../../../server/probe/calibration/trend.ts';
import { named, referenceCase } from '../../published/referenceCase.ts';

const norris = referenceCase<
  { x: number[]; y: number[] },
  { b0: number; b1: number; s_b0: number; s_b1: number; resid_sd: number }
>('STRD-NORRIS');

test(named(norris), () => {
  const line = straightLine(norris.inputs.x, norris.inputs.y);
  const found = {
    b0: line.intercept,
    b1: line.slope,
    s_b0: line.interceptUncertainty,
    s_b1: line.slopeUncertainty,
    resid_sd: line.residualStandardDeviation,
  };
  for (const [name, value] of Object.entries(found)) {
    const expected = norris.expected[name as keyof typeof found];
    expect(Math.abs(value / expected - 1), name).toBeLessThan(1e-9);
  }
});

const past = (date: string, effectiveDiameter: number, tipDiameter: number | null = 4): PastCalibration => ({
  date,
  effectiveDiameter,
  expandedUncertainty: 0.002,
  tipDiameter,
});

describe('the trend', () => {
  test('says when the drift since the last calibration passes its U', () => {
    // 0.0001 mm in ten days, a micrometre to and fro.
    const entries = [0, 100, 200, 300, 400].map((day, index) =>
      past(
        new Date(Date.UTC(2024, 0, 1 + day)).toISOString().slice(0, 10),
        3.96 + day * 1e-5 + (index % 2) * 1e-5,
      ),
    );
    const { trend } = historyOf(entries);
    expect(trend?.significant).toBe(true);
    expect(trend?.line.slope).toBeCloseTo(1e-5, 6);
    // 0.002 / 0.00001 = 200 days after 4 February 2025.
    expect(trend?.exceeds?.expected).toMatch(/^2025-08-/);
    const { earliest = '', expected = '', latest = '' } = trend?.exceeds ?? {};
    expect(earliest < expected && expected < (latest ?? '9')).toBe(true);
  });

  test('foresees nothing from scatter', () => {
    const entries = [3.96, 3.961, 3.96, 3.961].map((value, index) => past(`2025-0${index + 1}-01`, value));
    expect(historyOf(entries).trend).toMatchObject({ significant: false, exceeds: null });
  });

  test('needs three days', () => {
    expect(
      historyOf([past('2025-01-01', 3.96), past('2025-01-01', 3.96), past('2025-02-01', 3.96)]).trend,
    ).toBeNull();
  });

  test('begins anew with another tip', () => {
    const entries = [past('2025-01-01', 5.96, 6), past('2025-02-01', 3.96), past('2025-03-01', 3.961)];
    const history = historyOf(entries);
    expect(history.otherTips).toBe(1);
    expect(history.counted).toHaveLength(2);
    // |0.001| over √(0.002² + 0.002²).
    expect(history.lastStep?.normalised).toBeCloseTo(0.001 / Math.hypot(0.002, 0.002), 9);
  });

  test('goes by the day, not by the place in the file', () => {
    const entries = [past('2025-03-01', 3.962), past('2025-01-01', 3.96)];
    expect(historyOf(entries).lastStep?.change).toBeCloseTo(0.002, 12);
  });
});

describe('the file', () => {
  const line = '{"date":"2025-01-01","effectiveDiameter":3.96,"who":"night shift"}';
  const entry = roundedEntry({
    date: '2025-02-01',
    effectiveDiameter: 3.9601234567,
    expandedUncertainty: 0.0012345678,
    coverageFactor: 2.36462,
    tipDiameter: 4,
    feed: 60,
    touches: 'ring.csv',
  });

  function entriesOf(text: string) {
    const read = readHistory(text);
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    return read.entries;
  }

  test.each([`# ours\n${line}\n`, `# ours\r\n${line}\r\n`, line])(
    'keeps every line and adds one: %j',
    (text) => {
      const after = appendToHistory(text, entriesOf(text), entry);
      expect(after.startsWith(text)).toBe(true);
      expect(entriesOf(after)).toHaveLength(2);
      expect(entriesOf(after)[1]).toEqual(entry);
      expect(entry).toMatchObject({ effectiveDiameter: 3.960123, expandedUncertainty: 0.001235 });
    },
  );

  test('takes the same calibration once', () => {
    const after = appendToHistory(line, entriesOf(line), entry);
    expect(appendToHistory(after, entriesOf(after), entry)).toBe(after);
  });

  test.each([
    ['half a line', '{"date":"2025-01-01","effect'],
    ['a list', '[1]'],
    ['no day', '{"date":"2025-02-30","effectiveDiameter":4}'],
    ['no diameter', '{"date":"2025-02-28"}'],
    ['a text for a number', '{"date":"2025-02-28","effectiveDiameter":"4"}'],
    ['a negative uncertainty', '{"date":"2025-02-28","effectiveDiameter":4,"expandedUncertainty":-1}'],
    ['touches that are no text', '{"date":"2025-02-28","effectiveDiameter":4,"touches":4}'],
  ])('%s is refused with its line', (_, broken) => {
    const read = readHistory(`${line}\n${broken}\n`);
    expect(read).toMatchObject({ problems: [{ line: 2 }] });
  });
});
