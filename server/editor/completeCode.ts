import { type CompletionItem, CompletionItemKind } from 'vscode-languageserver';
import { type Code, codeOf, codesOf } from '../program/codes.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Source } from '../syntax/source.ts';
import type { Program } from '../workspace/program.ts';
import { isAllowed } from './allowedCodes.ts';
import { codesOfBlock } from './blockCodes.ts';
import type { CompletionPlace } from './completion.ts';
import { replaceBefore } from './replaceBefore.ts';

/** Beyond this many lines it takes too long to say at each key what is in force. */
const mostLines = 5000;

/** Lines before the caret whose codes are likely to come again. */
const nearLines = 300;

/** G and M codes that may stand here, after their letter or where a word can begin; those used nearby first. */
export function completeCode(program: Program, place: CompletionPlace): CompletionItem[] {
  const typed =
    /(?:^|[^A-Za-z])([GMgm][\d.]*)$/.exec(place.before)?.[1] ?? (wordBegins(place.before) ? '' : null);
  if (typed === null) return [];
  const { source } = program;
  const dialect = source.dialect.name;
  const letter = typed.slice(0, 1).toUpperCase();
  const { line } = place.position;
  const beside = codesBeside(source, place, typed.length);
  const modes = source.lineCount <= mostLines ? (program.analysis.stateAt(line)?.modes ?? null) : null;
  const near = codesNear(source, line);
  return codesOf(dialect)
    .filter((code) => code.code.startsWith(letter) && isAllowed(code, beside, modes, dialect))
    .map(({ code, title }) => ({
      label: code,
      kind: code.startsWith('G') ? CompletionItemKind.Function : CompletionItemKind.Method,
      // Beside every row, not the focused one alone.
      labelDetails: { description: title },
      sortText: `${near.has(code) ? '1' : '3'}${sortText(code)}`,
      filterText: code,
      textEdit: replaceBefore(place, typed.length, /^[gm]/.test(typed) ? code.toLowerCase() : code),
      data: { kind: 'code', code, dialect },
    }));
}

/** At the start of a line or after a blank, unless a letter waits for its value. */
function wordBegins(before: string): boolean {
  return /(?:^|[\d\].)>]\s)\s*$/.test(before);
}

/** The codes of the line without the one that is being typed. */
function codesBeside(source: Source, { before, position }: CompletionPlace, typed: number): Code[] {
  const line = source.text.line(position.line);
  const rest = `${before.slice(0, before.length - typed)} ${line.slice(before.length).replace(/^[\d.]+/, '')}`;
  const dialect = source.dialect.name;
  return codesOfBlock(parseBlock(rest, source.dialect)).flatMap(
    (name) => codeOf(name.charAt(0) as 'G' | 'M', Number(name.slice(1)), dialect) ?? [],
  );
}

function codesNear(source: Source, line: number): ReadonlySet<string> {
  const near = new Set(['G0', 'G1']);
  for (let at = Math.max(0, line - nearLines); at < line; at++)
    if (source.classOf(at) === 2) for (const code of codesOfBlock(source.block(at))) near.add(code);
  return near;
}

/** G2 before G10. */
function sortText(code: string): string {
  const [, letter = '', whole = '', rest = ''] = /^(\D)(\d+)(.*)$/.exec(code) ?? [];
  return `${letter}${whole.padStart(4, '0')}${rest}`;
}
