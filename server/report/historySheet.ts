import type { History, Trend } from '../probe/calibration/trend.ts';
import { fineLength } from './fineLength.ts';
import type { Quantities } from './quantities.ts';
import { column, type Row, row, type Sheet, type Table } from './sheet.ts';

/** Earlier calibrations and where the effective diameter goes. */
export function historySheet(path: string, history: History, show: Quantities): Sheet {
  const { counted, otherTips } = history;
  const more = counted.length > mostShown ? `, the last ${mostShown} shown` : '';
  const before = otherTips === 0 ? '' : `; ${otherTips} before, with another tip, left aside`;
  return {
    name: path,
    about: `calibrations: ${counted.length}${more}${before}`,
    rows: [
      row('', '', 'plain', entryTable(history, show)),
      ...stepRows(history, show),
      trendRow(history, show),
    ],
    notes: [],
  };
}

const mostShown = 30;

function entryTable({ counted }: History, show: Quantities): Table {
  return {
    columns: [column('Day'), column('Effective diameter'), column('U')],
    rows: counted.slice(-mostShown).map(({ date, effectiveDiameter, expandedUncertainty }) => ({
      cells: [
        date,
        fineLength(effectiveDiameter, show.units),
        expandedUncertainty === null ? '' : `±${show.error(expandedUncertainty)}`,
      ],
      tone: 'plain',
    })),
  };
}

function stepRows({ lastStep }: History, show: Quantities): Row[] {
  if (lastStep === null) return [];
  const { change, normalised } = lastStep;
  if (normalised === null) return [row('last step', show.signedError(change))];
  const text = `${show.signedError(change)}, ${normalised.toFixed(1)} of what the two uncertainties allow together`;
  return normalised > 1
    ? [row('last step', `${text}: the last two calibrations do not agree`, 'warning')]
    : [row('last step', text)];
}

const year = 365.25;

function trendRow({ counted, trend }: History, show: Quantities): Row {
  if (trend === null) {
    const days = new Set(counted.map(({ date }) => date)).size;
    return row('trend', `three days with a calibration are needed; there are ${days}`);
  }
  const slope = `${show.signedError(trend.line.slope * year)} ±${show.error(trend.slopeExpandedUncertainty * year)} a year (95 %, ν = ${trend.line.degreesOfFreedom})`;
  return trend.significant
    ? row('trend', `${slope}. ${exceedsText(trend)}`, 'warning')
    : row('trend', `none that can be seen: ${slope}`);
}

function exceedsText({ exceeds }: Trend): string {
  if (exceeds === null) return 'When that passes U of the last calibration cannot be said.';
  const latest = exceeds.latest === null ? 'open' : exceeds.latest;
  return `If it goes on, the drift passes U of the last calibration about ${exceeds.expected} (between ${exceeds.earliest} and ${latest}): calibrate again before that.`;
}

/** The same for other programs: mm, mm per day; null where nothing is known. */
export function historyJson(history: History): object {
  const { counted, otherTips, lastStep, trend } = history;
  return {
    entries: counted.map(({ date, effectiveDiameter, expandedUncertainty }) => ({
      date,
      effectiveDiameter,
      expandedUncertainty,
    })),
    otherTips,
    lastStep,
    trend:
      trend === null
        ? null
        : {
            slopePerDay: trend.line.slope,
            slopeStandardUncertainty: trend.line.slopeUncertainty,
            degreesOfFreedom: trend.line.degreesOfFreedom,
            significant: trend.significant,
            exceeds: trend.exceeds,
          },
  };
}
