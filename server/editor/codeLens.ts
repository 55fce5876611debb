import type { CodeLens } from 'vscode-languageserver';
import { datumError } from '../analysis/error.ts';
import type { Datum } from '../analysis/model.ts';
import type { Procedure } from '../analysis/procedures.ts';
import { counted } from '../report/counted.ts';
import { quantities } from '../report/quantities.ts';
import { resultQuantities } from '../report/resultQuantities.ts';
import type { Source } from '../syntax/source.ts';
import type { Program } from '../workspace/program.ts';
import { codesOfBlock } from './blockCodes.ts';
import { isTouchCode } from './blockTokens.ts';
import { ageLenses } from './blockUpdate.ts';
import type { ClientFacts } from './clientFacts.ts';
import { unitsAt } from './modesInForce.ts';
import type { NotesLevel } from './notes.ts';

/** Datums that one line has room for. */
const mostDatums = 6;

/** One over each routine that touches or writes a datum; what it says is computed when it comes on the screen. */
export function codeLenses(program: Program, level: NotesLevel, client: ClientFacts): CodeLens[] {
  const { source, analysis, uri } = program;
  if (level === 'off' || !source.hasTouch()) return [];
  const touchLines = [...source.otherLines()].filter((line) => touchesAt(source, line));
  const lenses = analysis.procedures.all.flatMap((procedure) => {
    if (!touchLines.some((line) => holds(procedure, line))) return [];
    const line = lineOf(procedure, source);
    const range = { start: { line, character: 0 }, end: { line, character: source.text.line(line).length } };
    return { range, data: { uri, header: procedure.header } };
  });
  return [...lenses, ...ageLenses(program, client)].sort((a, b) => a.range.start.line - b.range.start.line);
}

/** The lens with its words; as it came where its routine is gone. */
export function resolveCodeLens(lens: CodeLens, program: Program): CodeLens {
  const { header } = lens.data as { header?: unknown };
  const procedure = program.analysis.procedures.all.find((each) => each.header === header);
  const title = procedure ? said(program, procedure) : '';
  // A command without a name is shown and can't be pressed.
  return { ...lens, command: { title, command: '' } };
}

function touchesAt(source: Source, line: number): boolean {
  if (!/g\s*0*3/i.test(source.text.line(line))) return false;
  return codesOfBlock(source.block(line)).some((code) => isTouchCode(code, source.dialect.name));
}

function holds({ header, ranges }: Procedure, line: number): boolean {
  return line === header || ranges.some(([from, to]) => from <= line && line < to);
}

/** Its header, or where there is none its first line that says something. */
function lineOf({ header, ranges }: Procedure, source: Source): number {
  if (header >= 0) return header;
  for (const [from, to] of ranges)
    for (let line = from; line < to; line++)
      if (source.classOf(line) > 0 && !source.text.line(line).startsWith('%')) return line;
  return ranges[0]?.[0] ?? 0;
}

interface Worst {
  readonly line: number;
  readonly error: number | null;
  readonly unit: Datum['unit'];
}

function said(program: Program, procedure: Procedure): string {
  const { analysis, profile } = program;
  const touches = new Set(
    analysis.touches.filter(({ line }) => holds(procedure, line)).map(({ line }) => line),
  );
  const worst = new Map<string, Worst>();
  for (const datum of analysis.datums) {
    if (!holds(procedure, datum.line)) continue;
    const error = datumError(datum, profile.profile)?.expectedError ?? null;
    const known = worst.get(datum.target);
    if (known && (known.error === null || (error !== null && error <= known.error))) continue;
    worst.set(datum.target, { line: datum.line, error, unit: datum.unit });
  }
  const datums = [...worst].slice(0, mostDatums).map(([target, { line, error, unit }]) => {
    if (error === null) return `${shown(target)} error not known`;
    const state = analysis.stateAt(line);
    const units = state ? unitsAt(state.modes, profile.profile.units) : profile.profile.units;
    return `${shown(target)} ±${resultQuantities(unit, quantities(units)).error(error)}`;
  });
  const more = worst.size > mostDatums ? [`${worst.size - mostDatums} more`] : [];
  return [touchText(touches.size), ...datums, ...more].join(' · ');
}

function touchText(count: number): string {
  return count === 0 ? 'touches that no path reaches' : counted(count, 'touch', 'touches');
}

/** `G54.x` as people write it: `G54 X`. */
function shown(target: string): string {
  return target.replace(/\.([a-z])$/, (_, axis: string) => ` ${axis.toUpperCase()}`);
}
