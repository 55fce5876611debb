import type { History, Trend } from '../probe/calibration/trend.ts';
import { fineLength } from './fineLength.ts';
import { labelled } from './labelled.ts';
import type { Quantities } from './quantities.ts';
import { printable, type Style } from './style.ts';

/** Earlier calibrations and where the effective diameter goes. */
export function historyText(
  path: string,
  history: History,
  show: Quantities,
  style: Style,
  width: number,
): string {
  const { counted, otherTips } = history;
  const most = 30;
  const rows = counted.slice(-most).map(({ date, effectiveDiameter, expandedUncertainty }) => {
    const sure = expandedUncertainty === null ? '' : `  ±${show.error(expandedUncertainty)}`;
    return `${' '.repeat(8)}${date}  ${fineLength(effectiveDiameter, show.units)}${sure}\n`;
  });
  const more = counted.length > most ? `, the last ${most} shown` : '';
  const before = otherTips === 0 ? '' : `; ${otherTips} before, with another tip, left aside`;
  return [
    `${style.bold(printable(path))}  calibrations: ${counted.length}${more}${before}\n`,
    ...rows,
    stepText(history, show, style, width),
    trendText(history, show, style, width),
  ].join('');
}

function stepText({ lastStep }: History, show: Quantities, style: Style, width: number): string {
  if (lastStep === null) return '';
  const { change, normalised } = lastStep;
  if (normalised === null) return labelled('last step', show.signedError(change), width);
  const text = `${show.signedError(change)}, ${normalised.toFixed(1)} of what the two uncertainties allow together`;
  return normalised > 1
    ? labelled('last step', `${text}: the last two calibrations do not agree`, width, style.yellow)
    : labelled('last step', text, width);
}

const year = 365.25;

function trendText({ counted, trend }: History, show: Quantities, style: Style, width: number): string {
  if (trend === null)
    return labelled(
      'trend',
      `three days with a calibration are needed; there are ${new Set(counted.map(({ date }) => date)).size}`,
      width,
    );
  const slope = `${show.signedError(trend.line.slope * year)} ±${show.error(trend.slopeExpandedUncertainty * year)} a year (95 %, ν = ${trend.line.degreesOfFreedom})`;
  if (!trend.significant) return labelled('trend', `none that can be seen: ${slope}`, width);
  return labelled('trend', `${slope}. ${exceedsText(trend)}`, width, style.yellow);
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
