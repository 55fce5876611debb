/** A fault of the text: `line` is 1-based, 0 for the file as a whole. */
export interface TableProblem {
  readonly line: number;
  readonly message: string;
}

export interface TableRow {
  /** 1-based line of the text. */
  readonly line: number;
  /** By column; null: an empty cell. A column that the header leaves out has no entry. */
  readonly values: Readonly<Record<string, number | null>>;
}

export type ReadTable =
  | { readonly columns: readonly string[]; readonly rows: readonly TableRow[] }
  | { readonly problems: readonly TableProblem[] };

export interface TableColumns {
  readonly required: readonly string[];
  readonly optional: readonly string[];
}

const mostCharacters = 4_000_000;
const mostRows = 5000;
const mostProblems = 20;

/**
 * Numbers of a CSV file with a header. Cells are parted by commas, or by semicolons or tabs where the header has those, and
 * then decimal commas are read too; by blanks where the header has none of these, as controls print that know no comma; `#` begins a comment; a cell may stand in double quotes. Any other text gives problems
 * with their lines, never an exception.
 */
export function readTable(text: string, columns: TableColumns): ReadTable {
  if (text.length > mostCharacters)
    return whole(`too large for a list of touches: ${text.length} characters, at most ${mostCharacters}.`);
  if (/[\0-\x08\x0E-\x1F]/.test(text)) return whole('no text: it holds bytes that no CSV file has.');
  const lines = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\r|\n/)
    .map((line, index) => ({ line: index + 1, text: line.replace(/#.*$/, '').trim() }))
    .filter((each) => each.text.replace(/[,;\s]/g, '') !== '');
  const [header, ...body] = lines;
  if (header === undefined)
    return whole(`empty. It needs a header, ${columns.required.join(',')}, and a line for each touch.`);
  if (body.length > mostRows) return whole(`too long: ${body.length} touches, at most ${mostRows}.`);
  const separator = separatorIn(header.text);
  const names = cellsOf(header.text, separator).map((name) => name.toLowerCase());
  const faults = headerFaults(names, header.line, columns);
  if (faults.length > 0) return { problems: faults };
  if (body.length === 0) return whole('no touches: nothing follows the header.');
  if (separator === ',') {
    const mixed = mixedSeparators(body, names.length);
    if (mixed !== null) return { problems: [mixed] };
  }
  const problems: TableProblem[] = [];
  const rows = body.map((each) => readRow(each, names, separator, problems));
  return problems.length > 0 ? { problems: problems.slice(0, mostProblems) } : { columns: names, rows };
}

function whole(message: string): ReadTable {
  return { problems: [{ line: 0, message }] };
}

function separatorIn(header: string): string {
  return [';', '\t', ',', ' '].find((separator) => header.includes(separator)) ?? ',';
}

function cellsOf(text: string, separator: string): string[] {
  return text.split(separator === ' ' ? / +/ : separator).map((cell) =>
    cell
      .trim()
      .replace(/^"(.*)"$/, '$1')
      .trim(),
  );
}

function headerFaults(names: readonly string[], line: number, columns: TableColumns): TableProblem[] {
  const known = [...columns.required, ...columns.optional];
  const listed = `${columns.required.join(', ')}${columns.optional.length === 0 ? '' : `; as you like ${columns.optional.join(', ')}`}`;
  if (names.every((name) => /^[-+.\d]/.test(name)))
    return [{ line, message: `numbers where the names of the columns belong: ${listed}.` }];
  const problems: TableProblem[] = [];
  for (const [index, name] of names.entries()) {
    if (name === '') problems.push({ line, message: `column ${index + 1} has no name.` });
    else if (!known.includes(name))
      problems.push({ line, message: `there is no column "${name.slice(0, 40)}". There are ${listed}.` });
    else if (names.indexOf(name) < index)
      problems.push({ line, message: `the column ${name} stands twice.` });
  }
  for (const name of columns.required)
    if (!names.includes(name)) problems.push({ line, message: `the column ${name} is missing.` });
  return problems.slice(0, mostProblems);
}

/**
 * Lines of more cells than the header names, as decimal commas make them, or of cells parted otherwise: one fault of the file,
 * said once, where every line has it. null: not so.
 */
function mixedSeparators(
  body: readonly { readonly line: number; readonly text: string }[],
  columns: number,
): TableProblem | null {
  const [first] = body;
  if (first === undefined) return null;
  if (body.every(({ text }) => text.includes(';')))
    return {
      line: first.line,
      message:
        'the header has commas between its names and the lines have semicolons: write the header with semicolons too; then decimal commas are read as well.',
    };
  if (body.every(({ text }) => text.includes('\t') && cellsOf(text, '\t').length === columns))
    return {
      line: first.line,
      message:
        'the header has commas between its names and the lines have tabs: write the header with tabs too.',
    };
  if (!body.every(({ text }) => isWithDecimalCommas(cellsOf(text, ','), columns))) return null;
  return {
    line: first.line,
    message:
      'the numbers are written with decimal commas, which part the cells here: write points (10.5), or part the cells of all lines, the header too, with semicolons.',
  };
}

/** More cells than columns, all of them whole numbers, so that pairs of them are a number each. */
function isWithDecimalCommas(cells: readonly string[], columns: number): boolean {
  const filled = cells.filter((cell) => cell !== '');
  return (
    filled.length > columns &&
    filled.length <= 2 * columns &&
    filled.every((cell) => /^[-+\u2212]?\d+$/.test(cell))
  );
}

function readRow(
  { line, text }: { readonly line: number; readonly text: string },
  names: readonly string[],
  separator: string,
  problems: TableProblem[],
): TableRow {
  const cells = cellsOf(text, separator);
  while (cells.length > names.length && cells.at(-1) === '') cells.pop();
  if (cells.length !== names.length) {
    const commas =
      separator === ',' && cells.length > names.length
        ? ' Decimal commas? Write points, or part the cells with semicolons.'
        : '';
    const other =
      separator === ',' && text.includes(';') ? ' The header has commas, this line semicolons.' : '';
    problems.push({
      line,
      message: `${cells.length} cell${cells.length === 1 ? '' : 's'} where the header names ${names.length}.${other || commas}`,
    });
    return { line, values: {} };
  }
  const values = names.map((name, index) => {
    const cell = cells[index] ?? '';
    if (cell === '') return [name, null] as const;
    const value = numberOf(cell, separator);
    if (value === null) problems.push({ line, message: `${name} is "${cell.slice(0, 40)}", no number.` });
    else if (!Number.isFinite(value)) problems.push({ line, message: `${name} is too large a number.` });
    return [name, value] as const;
  });
  return { line, values: Object.fromEntries(values) };
}

function numberOf(cell: string, separator: string): number | null {
  const text = separator === ',' ? cell : cell.replace(/^([-+]?\d*),(\d*)$/, '$1.$2');
  const plain = text.replace('\u2212', '-');
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(plain) ? Number(plain) : null;
}
