import { readTable, type TableProblem, type TableRow } from './readTable.ts';
import type { SphereTouch } from './sphere.ts';
import type { CalibrationTouch } from './touches.ts';

export type ReadTouches<Touch> =
  | { readonly touches: readonly Touch[] }
  | { readonly problems: readonly TableProblem[] };

/** mm in a unit of the file. */
export type MillimetresPer = 1 | 25.4;

/** Columns of touches on a ring, a plug, a gap or a block. */
export const touchColumns = {
  required: ['direction', 'x', 'y'],
  optional: ['feed', 'spindle'],
} as const;

/** Columns of touches on a sphere: the approach by its azimuth and its elevation (−90: straight down). */
export const sphereColumns = {
  required: ['azimuth', 'elevation', 'x', 'y', 'z'],
  optional: ['feed'],
} as const;

/**
 * The touches of a CSV file (`command-line.md`): `direction` and `spindle` in degrees, `x`, `y` the latched stylus centre,
 * `feed` per minute. What is empty in one line has to be empty in all.
 */
export function readTouches(text: string, millimetres: MillimetresPer): ReadTouches<CalibrationTouch> {
  const table = readTable(text, touchColumns);
  if ('problems' in table) return table;
  const problems = [...requiredCells(table.rows, touchColumns.required), ...wholeOrNone(table.rows)];
  for (const row of table.rows)
    problems.push(
      ...angleProblems(row.line, row.values, ['direction', 'spindle']),
      ...coordinateProblems(row, ['x', 'y'], millimetres),
    );
  if (problems.length > 0) return { problems: inOrder(problems) };
  return {
    touches: table.rows.map(({ line, values }) => ({
      row: line,
      direction: values.direction ?? 0,
      x: (values.x ?? 0) * millimetres,
      y: (values.y ?? 0) * millimetres,
      speed: speedOf(values.feed, millimetres),
      spindle: values.spindle ?? null,
    })),
  };
}

/** The same for a sphere. */
export function readSphereTouches(text: string, millimetres: MillimetresPer): ReadTouches<SphereTouch> {
  const table = readTable(text, sphereColumns);
  if ('problems' in table) return table;
  const problems = [...requiredCells(table.rows, sphereColumns.required), ...wholeOrNone(table.rows)];
  for (const row of table.rows) {
    const { line, values } = row;
    problems.push(
      ...angleProblems(line, values, ['azimuth']),
      ...coordinateProblems(row, ['x', 'y', 'z'], millimetres),
    );
    if (Math.abs(values.elevation ?? 0) > 90)
      problems.push({ line, message: 'elevation is outside of −90 to 90 degrees.' });
  }
  if (problems.length > 0) return { problems: inOrder(problems) };
  return {
    touches: table.rows.map(({ line, values }) => ({
      row: line,
      azimuth: values.azimuth ?? 0,
      elevation: values.elevation ?? 0,
      x: (values.x ?? 0) * millimetres,
      y: (values.y ?? 0) * millimetres,
      z: (values.z ?? 0) * millimetres,
      speed: speedOf(values.feed, millimetres),
    })),
  };
}

function speedOf(feed: number | null | undefined, millimetres: number): number | null {
  return feed === null || feed === undefined ? null : (feed * millimetres) / 60;
}

function requiredCells(rows: readonly TableRow[], required: readonly string[]): TableProblem[] {
  return rows.flatMap(({ line, values }) =>
    required.filter((name) => values[name] === null).map((name) => ({ line, message: `${name} is empty.` })),
  );
}

function wholeOrNone(rows: readonly TableRow[]): TableProblem[] {
  return ['feed', 'spindle'].flatMap((name) => {
    const stated = rows.filter(({ values }) => (values[name] ?? null) !== null).length;
    if (stated === 0) return [];
    return rows.flatMap(({ line, values }) => {
      const value = values[name] ?? null;
      if (value === null) return [{ line, message: `${name} is empty here and stated in other lines.` }];
      return name === 'feed' && value <= 0
        ? [{ line, message: `feed is ${value}; it must be greater than 0.` }]
        : [];
    });
  });
}

/** More than two turns is no angle that somebody commands. */
function angleProblems(line: number, values: TableRow['values'], names: readonly string[]): TableProblem[] {
  return names
    .filter((name) => Math.abs(values[name] ?? 0) > 720)
    .map((name) => ({ line, message: `${name} is ${values[name]}: degrees are expected, −360 to 360.` }));
}

/** 100 m: no machine is that large, and no digits would be left. */
const farthest = 100_000;

function coordinateProblems(
  { line, values }: TableRow,
  names: readonly string[],
  millimetres: MillimetresPer,
): TableProblem[] {
  return names
    .filter((name) => Math.abs(values[name] ?? 0) * millimetres > farthest)
    .map((name) => ({ line, message: `${name} is ${values[name]}: farther than any machine goes.` }));
}

function inOrder(problems: readonly TableProblem[]): TableProblem[] {
  return [...problems].sort((a, b) => a.line - b.line).slice(0, 20);
}
