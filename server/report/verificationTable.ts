import type { Profile } from '../profile/profile.ts';

/**
 * The touches that verify a calibration, as a table to fill in: two opposite ones along each axis, at the spindle angle of the
 * calibration, and where the spindle can be turned those along X again at 90° more.
 */
export function verificationTable(
  { probe, machine, statedMeasuringFeed }: Profile,
  units: 'mm' | 'inch',
): string {
  const feed = statedMeasuringFeed === null ? '' : inUnits(statedMeasuringFeed, units);
  const start = probe.calibration?.spindle ?? 0;
  const turned = machine.spindleOrientation;
  const rows = [0, 180, 90, 270].map((direction) => cells(direction, feed, turned ? start : null));
  const again = turned ? [0, 180].map((direction) => cells(direction, feed, (start + 90) % 360)) : [];
  return [
    `# Touches of one reference against the calibration. Fill in x and y, the latched stylus centre, in ${units}; feed per minute.`,
    '# Directions are those of the approach: degrees from X+, counter-clockwise seen from +Z. Repeat lines to touch again.',
    ['direction', 'x', 'y', 'feed', ...(turned ? ['spindle'] : [])].join(','),
    ...rows,
    ...again,
    '',
  ].join('\n');
}

function cells(direction: number, feed: string, spindle: number | null): string {
  return [direction, '', '', feed, ...(spindle === null ? [] : [spindle])].join(',');
}

function inUnits(mmPerMinute: number, units: 'mm' | 'inch'): string {
  return String(Number((units === 'inch' ? mmPerMinute / 25.4 : mmPerMinute).toPrecision(6)));
}
