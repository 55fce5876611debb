// The table that `npm run bench` prints.

/**
 * A row as the files in `rows/` give it.
 * @typedef {object} Row
 * @property {string} figure what was measured
 * @property {number} value
 * @property {'' | 'MiB' | 'ms' | 's'} unit '' is a ratio
 * @property {number | null} most a limit, in the same unit; null: told for its own sake
 * @property {number | null} goal
 */

/** Rows as a table in Markdown, as it stands in DEVELOPERS.md. */
export function table(rows) {
  const cells = [
    ['figure', 'measured', 'at most', 'goal'],
    ...rows.map(({ figure, value, unit, most, goal }) => [
      figure,
      shown(value, unit),
      most === null ? '' : shown(most, unit),
      goal === null ? '' : shown(goal, unit),
    ]),
  ];
  const widths = cells[0].map((_, column) => Math.max(...cells.map((row) => row[column].length)));
  const line = (row) => `| ${row.map((cell, column) => cell.padEnd(widths[column])).join(' | ')} |`;
  const [head, ...body] = cells.map(line);
  return [head, `|${widths.map((width) => '-'.repeat(width + 2)).join('|')}|`, ...body].join('\n');
}

/** Rows whose limit is not kept. */
export function broken(rows) {
  return rows.filter(({ value, most }) => most !== null && !(value <= most));
}

function shown(value, unit) {
  const digits = unit === '' ? 3 : unit === 's' ? 2 : value < 10 ? 1 : 0;
  return `${Number(value.toFixed(digits))}${unit === '' ? '' : ` ${unit}`}`;
}
