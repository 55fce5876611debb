import type { DialectName } from '../syntax/dialect.ts';
import { type LogTouch, logColumns } from './motion.ts';
import type { Units } from './routine.ts';

const columns = ['direction', 'x', 'y', 'feed', 'spindle'] as const;

/** Touches as `calibrate` reads them: comma-separated in a file of rs274ngc, parted by blanks through the macro family's port. */
export function logLines(
  { part }: LogTouch,
  dialect: DialectName,
  units: Units,
  name: (variable: string) => string,
): string[] {
  const variables = columns.map((column) => name(logColumns[column]));
  if (dialect === 'rs274ngc')
    return {
      open: ['(LOGOPEN,touches.csv)', `(LOG,${columns.join(',')})`],
      row: [`(LOG,${variables.join(',')})`],
      close: ['(LOGCLOSE)'],
    }[part];
  // Digits before and behind the point: as far as a control of this family prints.
  const format = units === 'inch' ? '[35]' : '[44]';
  return {
    open: ['POPEN', `DPRNT[${columns.join('*').toUpperCase()}]`],
    row: [`DPRNT[${variables.map((variable) => variable + format).join('*')}]`],
    close: ['PCLOS'],
  }[part];
}
