import type { FormattingOptions, Position, Range, TextEdit } from 'vscode-languageserver';
import { foreignLanguage } from '../checks/foreignLanguage.ts';
import type { Source } from '../syntax/source.ts';
import type { Program } from '../workspace/program.ts';
import { formatLine, leadingBlanks } from './formatLine.ts';
import { closesSomething, type Depths, depthAt, depthsOf } from './indentation.ts';

/**
 * Tidies whole lines without changing what they say. Bodies are indented where the flow of the whole program fits
 * together, else the indentation stays; line endings stay. A text in another language is left alone.
 */
export function format(program: Program, options: FormattingOptions, range?: Range): TextEdit[] {
  const { source, profile } = program;
  if (foreignLanguage(source, profile.profile) !== null) return [];
  const { from, to } = linesOf(range, source);
  const depths = depthsOf(source, source.programEnd);
  const unit = unitOf(options);
  const edits: TextEdit[] = [];
  let depth = depthAt(depths, from);
  for (let line = from; line < to; line++) {
    const steering = depths.steering.get(line);
    const own = steering?.own ?? depth;
    // Around the GOTOs of the macro dialect people indent by hand: outside its loops they have their way.
    const isKept = !depths.whole || (own === 0 && source.dialect.macroFlow);
    const indentation = isKept ? null : unit.repeat(own);
    edits.push(...editOf(source, line, indentation));
    depth = steering?.after ?? depth;
  }
  return edits;
}

/**
 * While typing: a new line gets the indentation of where it stands, and a line that has become an `endif`, `endsub`,
 * `END1` … goes back out. Nothing else is touched.
 */
export function formatWhileTyping(
  { source, profile }: Program,
  { line }: Position,
  typed: string,
  options: FormattingOptions,
): TextEdit[] {
  if (!holds(source, line) || foreignLanguage(source, profile.profile) !== null) return [];
  const depths = depthsOf(source, line + 1);
  if (typed !== '\n') return closesSomething(source.block(line)) ? indent(source, line, depths, options) : [];
  const before = holds(source, line - 1) && closesSomething(source.block(line - 1));
  return [
    ...(before ? indent(source, line - 1, depths, options) : []),
    ...indent(source, line, depths, options),
  ];
}

function indent(source: Source, line: number, depths: Depths, options: FormattingOptions): TextEdit[] {
  const block = source.block(line);
  const { faults, lineNumber, blockDelete, items } = block;
  if (faults.length > 0 || lineNumber || blockDelete || items.some(({ kind }) => kind === 'percent'))
    return [];
  const old = leadingBlanks(block.text);
  const wanted = unitOf(options).repeat(depthAt(depths, line));
  return old === wanted ? [] : [replaced(line, 0, old.length, wanted)];
}

function linesOf(range: Range | undefined, source: Source): { readonly from: number; readonly to: number } {
  const from = Math.max(source.programStart, range?.start.line ?? 0);
  if (!range) return { from, to: source.programEnd };
  // A selection that ends before the first character of a line does not hold that line.
  const last =
    range.end.character === 0 && range.end.line > range.start.line ? range.end.line - 1 : range.end.line;
  return { from, to: Math.min(source.programEnd, last + 1) };
}

function holds(source: Source, line: number): boolean {
  return line >= source.programStart && line < source.programEnd;
}

function unitOf({ insertSpaces, tabSize }: FormattingOptions): string {
  return insertSpaces ? ' '.repeat(Math.min(16, Math.max(0, Math.trunc(tabSize) || 0))) : '\t';
}

/** Lines of a million that need no look: words one blank apart, nothing at their ends. */
const tidy = /^(?:[A-Za-z][-+]?[\d.]+(?: (?=[A-Za-z])|$))+$/;

function editOf(source: Source, line: number, indentation: string | null): TextEdit[] {
  const old = source.text.line(line);
  if (!indentation && tidy.test(old)) return [];
  const written = formatLine(old, indentation, source.dialect);
  if (written === old) return [];
  let start = 0;
  while (start < Math.min(old.length, written.length) && old[start] === written[start]) start++;
  let tail = 0;
  const most = Math.min(old.length, written.length) - start;
  while (tail < most && old[old.length - 1 - tail] === written[written.length - 1 - tail]) tail++;
  return [replaced(line, start, old.length - tail, written.slice(start, written.length - tail))];
}

function replaced(line: number, start: number, end: number, newText: string): TextEdit {
  return { range: { start: { line, character: start }, end: { line, character: end } }, newText };
}
