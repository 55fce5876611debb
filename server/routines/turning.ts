import type { DialectName } from '../syntax/dialect.ts';
import type { Index, Orient } from './motion.ts';
import type { Plan } from './routine.ts';

/** The words of a dialect that differ here. */
export interface Wording {
  readonly comment: (text: string) => string[];
  readonly number: (value: number) => string;
}

/** Degrees a minute: half a turn takes about eleven seconds; a slower table takes its own time. */
const indexFeed = 1000;

/** M19 where the profile says that it turns the spindle to an angle; else the operator turns it at a stop. */
export function orientLines(
  { degrees }: Orient,
  { profile }: Plan,
  dialect: DialectName,
  { number }: Wording,
): string[] {
  const calibrated = profile.probe.calibration?.spindle ?? 0;
  const angle = (((calibrated + degrees) % 360) + 360) % 360;
  if (profile.machine.spindleOrientation) return [`M19 R${number(angle)}`];
  if (dialect === 'macro') return [`#3006=1 (SPINDLE TO ${angle} DEG BY HAND)`];
  return [`(MSG, Turn the spindle to ${angle} degrees by hand, then start again.)`, 'M0'];
}

export function indexLines({ axis, degrees }: Index, { comment, number }: Wording): string[] {
  return [
    ...comment(`The rotary axis goes to ${degrees} degrees; the tip stands above everything.`),
    `G1 ${axis.toUpperCase()}${number(degrees)} F${number(indexFeed)}`,
  ];
}
