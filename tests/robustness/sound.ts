import type { Position, Range, TextEdit } from 'vscode-languageserver';
import { codeActions } from '../../server/editor/codeActions.ts';
import { codeLenses } from '../../server/editor/codeLens.ts';
import { completion } from '../../server/editor/completion.ts';
import { definition } from '../../server/editor/definition.ts';
import { documentSymbols } from '../../server/editor/documentSymbols.ts';
import { foldingRanges } from '../../server/editor/foldingRanges.ts';
import { format, formatWhileTyping } from '../../server/editor/formatting.ts';
import { highlights } from '../../server/editor/highlights.ts';
import { hover } from '../../server/editor/hover.ts';
import { inlayHints } from '../../server/editor/inlayHints.ts';
import { references } from '../../server/editor/references.ts';
import { prepareRename, rename } from '../../server/editor/rename.ts';
import { selectionRanges } from '../../server/editor/selectionRanges.ts';
import { SemanticTokensOf } from '../../server/editor/semanticTokens.ts';
import { signatureHelp } from '../../server/editor/signatureHelp.ts';
import { surroundings } from '../../server/editor/surroundings.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import type { Place } from '../../server/syntax/place.ts';
import { printBlock } from '../../server/syntax/printBlock.ts';
import type { Block, Expression, Span } from '../../server/syntax/tree.ts';
import { type FileProfile, fileProfile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import type { Program } from '../../server/workspace/program.ts';
import { capable, uri } from '../editor/openProgram.ts';
import type { Random } from './random.ts';

const profileOf: Readonly<Record<DialectName, FileProfile>> = {
  rs274ngc: fileProfile('file:///job/probewright.json', '{ "dialect": "rs274ngc" }'),
  macro: fileProfile('file:///job/probewright.json', '{ "dialect": "macro" }'),
};

/** Without `expect`: a hundred thousand cases ask millions of times. */
function claim(holds: boolean, what: string, seen?: unknown): void {
  if (!holds) throw new Error(`${what}: ${JSON.stringify(seen)}`);
}

/** How far up a text is taken: parsed; analysed and checked as well; asked by an editor as well. */
export type Depth = 'syntax' | 'checks' | 'editor';

/** Opens the text as an editor would and asks what its depth has, the editor's features at a random place. */
export async function claimSound(
  text: string,
  dialect: DialectName,
  random: Random,
  depth: Depth,
): Promise<void> {
  for (const line of text.split(/\r\n|\r|\n/)) {
    for (const each of Object.values(dialects)) claimAccountedFor(line, parseBlock(line, each));
  }
  const program = OpenDocument.open(uri, 'gcode', 1, text).program(profileOf[dialect]);
  claim(program.source.text.toString() === text, 'the text is kept');
  if (depth === 'syntax' || program.notChecked !== null) return;
  claimFindings(program);
  const line = random.below(program.source.lineCount);
  const at = { line, character: random.below(program.source.text.line(line).length + 1) };
  program.analysis.stateAt(line);
  if (depth === 'checks') return;
  claimTokens(program);
  claimEdits(format(program, { tabSize: 2, insertSpaces: true }), program);
  claimPlaces(program, at);
  await claimNames(program, at);
}

/** Every character of a line lies in one item or is a blank; trees nest. */
function claimAccountedFor(line: string, block: Block): void {
  claim(block.text === line && printBlock(block) === line, 'a line prints as it stands', line);
  const parts = [block.blockDelete, block.lineNumber, ...block.items].filter((part) => part !== undefined);
  parts.sort((a, b) => a.start - b.start);
  let at = 0;
  const end: Span = { start: line.length, end: line.length + 1 };
  for (const { start, end: next } of [...parts, end]) {
    claim(start >= at && next > start, 'parts follow each other', { line, start, next, at });
    claim(/^[\ufeff \t\x1a]*$/.test(line.slice(at, start)), 'no character is lost', { line, at, start });
    at = next;
  }
  for (const item of block.items)
    if (item.kind === 'word' || item.kind === 'setting') claimNested(item.value, item);
  for (const { start, end } of block.faults)
    claim(0 <= start && start <= end && end <= line.length, 'a fault lies in its line', { line, start, end });
}

function claimNested(expression: Expression, within: Span): void {
  const { start, end } = expression;
  claim(within.start <= start && start <= end && end <= within.end, 'a part lies in the whole', expression);
  for (const child of partsOf(expression)) claimNested(child, expression);
}

function partsOf(expression: Expression): readonly Expression[] {
  switch (expression.kind) {
    case 'unary':
      return [expression.operand];
    case 'binary':
      return [expression.left, expression.right];
    case 'call':
      return expression.arguments;
    case 'parameter':
      return 'expression' in expression.index ? [expression.index.expression] : [];
    default:
      return [];
  }
}

function claimFindings(program: Program): void {
  for (const { rule, place, related, fixes, message } of program.findings) {
    claim(message.length > 0 && !/NaN|undefined|\[object/.test(message), `a message of ${rule}`, message);
    claimPlace(place, program);
    for (const each of related) claimPlace(each.place, program);
    for (const { edits } of fixes) {
      claimEdits(
        edits.map(({ line, start, endLine, end, text }) => ({
          range: { start: { line, character: start }, end: { line: endLine, character: end } },
          newText: text,
        })),
        program,
      );
    }
  }
}

function claimPlace({ line, start, end }: Place, program: Program): void {
  claimRange({ start: { line, character: start }, end: { line, character: end } }, program);
}

function claimRange({ start, end }: Range, { source }: Program): void {
  for (const { line, character } of [start, end]) {
    // Right behind the last line is a place too: there an edit appends.
    const length =
      line === source.lineCount
        ? 0
        : line >= 0 && line < source.lineCount
          ? source.text.line(line).length
          : -1;
    claim(Number.isInteger(character) && character >= 0 && character <= length, 'a range in the text', {
      start,
      end,
    });
  }
  const ordered = start.line < end.line || (start.line === end.line && start.character <= end.character);
  claim(ordered, 'a range forwards', { start, end });
}

function claimEdits(edits: readonly TextEdit[], program: Program): void {
  for (const { range } of edits) claimRange(range, program);
  const sorted = [...edits].sort(
    ({ range: { start: a } }, { range: { start: b } }) => a.line - b.line || a.character - b.character,
  );
  for (const [i, { range }] of sorted.entries()) {
    const before = sorted[i - 1]?.range.end;
    const apart =
      !before ||
      before.line < range.start.line ||
      (before.line === range.start.line && before.character <= range.start.character);
    claim(apart, 'edits do not overlap', sorted);
  }
}

function claimTokens(program: Program): void {
  const { data } = new SemanticTokensOf({ amount: 'everything', encoding: 'utf-16' }).full(program);
  let [line, at] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    const [lines = 0, offset = 0, length = 0] = data.slice(i, i + 3);
    claim(lines >= 0 && offset >= 0 && length > 0, 'tokens in order', { line, offset, length });
    [line, at] = [line + lines, lines > 0 ? offset : at + offset];
    claimPlace({ line, start: at, end: at + length }, program);
  }
}

function claimPlaces(program: Program, at: Position): void {
  const here = { start: at, end: at };
  const all = {
    start: { line: 0, character: 0 },
    end: { line: program.source.lineCount - 1, character: 0 },
  };
  const shown = hover(program, at, capable);
  if (shown?.range) claimRange(shown.range, program);
  for (const { textEdit } of completion(program, at, undefined, { snippets: true }))
    if (textEdit && 'range' in textEdit) claimRange(textEdit.range, program);
  signatureHelp(program, at);
  for (const symbol of documentSymbols(program)) claimRange(symbol.range, program);
  for (const { startLine, endLine } of foldingRanges(program))
    claim(startLine <= endLine && endLine < program.source.lineCount, 'folds in the text');
  for (const { range } of codeLenses(program, 'all', capable)) claimRange(range, program);
  for (const { position } of inlayHints(program, all, 'all'))
    claimRange({ start: position, end: position }, program);
  for (const { range } of selectionRanges(program, [at])) claimRange(range, program);
  claimEdits(formatWhileTyping(program, at, '\n', { tabSize: 2, insertSpaces: true }), program);
  for (const { edit } of codeActions(program, here, { diagnostics: [] }, capable))
    claimEdits(edit?.changes?.[uri] ?? [], program);
}

async function claimNames(program: Program, at: Position): Promise<void> {
  const around = surroundings(program, [program]);
  for (const { range } of definition(around, at)) claimRange(range, program);
  for (const { range } of references(around, at, true)) claimRange(range, program);
  for (const { range } of highlights(around.program, at)) claimRange(range, program);
  const target = prepareRename(around, at);
  if ('refused' in target) return;
  if ('range' in target) claimRange(target.range, program);
  const world = { client: capable.names, version: () => 1, fileExists: async () => false };
  const edit = await rename(around, at, '<new>', world);
  if ('refused' in edit) return;
  claimEdits(edit.changes?.[uri] ?? [], program);
}
