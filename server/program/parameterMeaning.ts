import type { DialectName } from '../syntax/dialect.ts';
import { offsetOf } from './parameters.ts';
import { axisLetters } from './state.ts';

/** What a parameter holds, for a person; null for the program's own. */
export function parameterMeaning(
  name: string,
  dialect: DialectName,
): { title: string; readOnly: boolean } | null {
  const bare = name
    .replace(/^#/, '')
    .replace(/^<(.*)>$/, '$1')
    .toLowerCase();
  const axisName = dialect === 'rs274ngc' ? /^_([xyzabcuvw])$/.exec(bare)?.[1] : undefined;
  if (axisName) return { title: `current ${axisName.toUpperCase()} in work coordinates`, readOnly: true };
  if (!/^\d+$/.test(bare)) return null;
  const n = Number(bare);
  const offset = offsetOf(n, dialect);
  if (offset) return { title: `${offset.system} offset of ${axisLetters[offset.axis]}`, readOnly: false };
  for (const range of meanings)
    if (n >= range.from && n <= range.to && (range.dialect === null || range.dialect === dialect))
      return { title: range.title(n - range.from), readOnly: range.readOnly };
  return null;
}

interface Meaning {
  readonly from: number;
  readonly to: number;
  readonly dialect: DialectName | null;
  readonly readOnly: boolean;
  readonly title: (index: number) => string;
}

const axis = (i: number) => axisLetters[i] ?? '?';

/** NISTIR 6556, Table 2, and what the trade adds to it (common practice, no source). */
const meanings: readonly Meaning[] = [
  {
    from: 5061,
    to: 5069,
    dialect: null,
    readOnly: true,
    title: (i) => `${axis(i)} of the last touch, work coordinates`,
  },
  {
    from: 5070,
    to: 5070,
    dialect: 'rs274ngc',
    readOnly: true,
    title: () => '1 after a touch that met the surface, 0 after one that did not',
  },
  {
    from: 5161,
    to: 5169,
    dialect: 'rs274ngc',
    readOnly: false,
    title: (i) => `${axis(i)} of the G28 position`,
  },
  {
    from: 5181,
    to: 5189,
    dialect: 'rs274ngc',
    readOnly: false,
    title: (i) => `${axis(i)} of the G30 position`,
  },
  {
    from: 5220,
    to: 5220,
    dialect: 'rs274ngc',
    readOnly: false,
    title: () => 'number of the work offset in force, 1 = G54',
  },
  {
    from: 5399,
    to: 5399,
    dialect: 'rs274ngc',
    readOnly: true,
    title: () => 'result of the last wait for an input',
  },
  {
    from: 5400,
    to: 5400,
    dialect: 'rs274ngc',
    readOnly: true,
    title: () => 'number of the tool in the spindle',
  },
  {
    from: 5401,
    to: 5409,
    dialect: 'rs274ngc',
    readOnly: true,
    title: (i) => `${axis(i)} offset of the tool in the spindle`,
  },
  {
    from: 5410,
    to: 5410,
    dialect: 'rs274ngc',
    readOnly: true,
    title: () => 'diameter of the tool in the spindle, from the tool table',
  },
  {
    from: 5420,
    to: 5428,
    dialect: 'rs274ngc',
    readOnly: true,
    title: (i) => `current ${axis(i)} in work coordinates`,
  },
  { from: 0, to: 0, dialect: 'macro', readOnly: true, title: () => 'always empty' },
  { from: 1000, to: 1035, dialect: 'macro', readOnly: true, title: (i) => `input ${i}` },
  {
    from: 3000,
    to: 3000,
    dialect: 'macro',
    readOnly: false,
    title: () => 'setting it stops the program with an alarm',
  },
  {
    from: 3006,
    to: 3006,
    dialect: 'macro',
    readOnly: false,
    title: () => 'setting it stops the program with a message',
  },
  {
    from: 4001,
    to: 4030,
    dialect: 'macro',
    readOnly: true,
    title: (i) => `G code in force in group ${i + 1}`,
  },
  { from: 4109, to: 4109, dialect: 'macro', readOnly: true, title: () => 'feed in force' },
  {
    from: 5001,
    to: 5009,
    dialect: 'macro',
    readOnly: true,
    title: (i) => `${axis(i)} at the end of the last block, work coordinates`,
  },
  {
    from: 5021,
    to: 5029,
    dialect: 'macro',
    readOnly: true,
    title: (i) => `current ${axis(i)}, machine coordinates`,
  },
  {
    from: 5041,
    to: 5049,
    dialect: 'macro',
    readOnly: true,
    title: (i) => `current ${axis(i)}, work coordinates`,
  },
  {
    from: 5201,
    to: 5206,
    dialect: 'macro',
    readOnly: false,
    title: (i) => `common offset of ${axis(i)}, added to every work offset`,
  },
];
