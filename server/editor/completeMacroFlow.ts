import { type CompletionItem, CompletionItemKind, InsertTextFormat } from 'vscode-languageserver';
import { proceduresOf } from '../analysis/procedures.ts';
import type { Source } from '../syntax/source.ts';
import { argumentsOf } from './callArguments.ts';
import type { CompletionPlace } from './completion.ts';
import { keywordItem as item } from './keywordItem.ts';
import { openBefore } from './keywordPlace.ts';
import { keywordMeanings } from './keywords.ts';
import { replaceBefore } from './replaceBefore.ts';

/** N numbers that one list of jump targets has room for. */
const mostLabels = 500;

/** At the start of a block, behind a condition, a GOTO, and the P of a call. */
export function completeMacroFlow(
  source: Source,
  place: CompletionPlace,
  snippets: boolean,
): CompletionItem[] {
  const typed = /GOTO\s*(\d*)$/i.exec(place.before)?.[1];
  return typed === undefined ? flowItems(source, place, snippets) : gotoItems(source, place, typed);
}

/** Behind GOTO: the N numbers of the file, nearest first. */
function gotoItems(source: Source, place: CompletionPlace, typed: string): CompletionItem[] {
  const found: { readonly number: number; readonly line: number }[] = [];
  for (let line = 0; line < source.lineCount && found.length < mostLabels; line++) {
    if (!/^[\s/\d]*n/i.test(source.text.line(line))) continue;
    const number = source.block(line).lineNumber?.value ?? null;
    if (number !== null) found.push({ number, line });
  }
  const { line: here } = place.position;
  return found
    .sort((a, b) => Math.abs(a.line - here) - Math.abs(b.line - here))
    .map(({ number, line }, order) => {
      const label = item(
        String(number),
        source.text.line(line).trim().slice(0, 80),
        pad(order),
        typed,
        place,
      );
      return { ...label, kind: CompletionItemKind.Reference };
    });
}

function flowItems(source: Source, place: CompletionPlace, snippets: boolean): CompletionItem[] {
  const called = /\b(?:M\s*0*9[68]|G\s*0*6(?:5|6(?:\.1)?))\b[^P]*P(\d*)$/i.exec(place.before)?.[1];
  if (called !== undefined) return programItems(source, place, called);
  const behind = /^[\s/\d]*(?:n\d+\s*)?((?:IF|WHILE)\s*\[.*\]\s*)([A-Z]*)$/i.exec(place.before);
  if (behind) {
    const words = /^IF/i.test(behind[1] ?? '') ? ['GOTO', 'THEN'] : [`DO${freeLoop(source, place)}`];
    return words.map((word, index) => item(word, '', String(index), behind[2] ?? '', place));
  }
  const typed = /^[\s/\d]*(?:n\d+\s*)?([A-Z]*)$/i.exec(place.before)?.[1];
  if (typed === undefined) return [];
  const [inner] = openBefore(source, place.position.line).reverse();
  const end = inner ? [item(`END${inner.label}`, keywordMeanings.end.title, '00', typed, place)] : [];
  return [...end, ...starters.map((each, index) => starter(each, index, typed, place, snippets))];
}

const starters = [
  { label: 'IF', text: 'IF[', snippet: 'IF[$1]$0', form: 'if-then' },
  { label: 'WHILE', text: 'WHILE[', snippet: 'WHILE[$1]$0', form: 'while-do' },
  { label: 'GOTO', text: 'GOTO', snippet: 'GOTO$0', form: 'goto' },
] as const;

function starter(
  { label, text, snippet, form }: (typeof starters)[number],
  index: number,
  typed: string,
  place: CompletionPlace,
  snippets: boolean,
): CompletionItem {
  return {
    ...item(label, keywordMeanings[form].title, `2${index}`, typed, place),
    textEdit: replaceBefore(place, typed.length, snippets ? snippet : text),
    insertTextFormat: snippets ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
  };
}

/** Loops inside each other have numbers 1 to 3 (common practice, no source). */
function freeLoop(source: Source, place: CompletionPlace): number {
  const used = new Set(openBefore(source, place.position.line).map(({ label }) => label));
  return [1, 2, 3].find((number) => !used.has(String(number))) ?? 1;
}

function programItems(source: Source, place: CompletionPlace, typed: string): CompletionItem[] {
  const { all, main } = proceduresOf(source);
  return all.flatMap((procedure) => {
    if (procedure.name === null || procedure === main) return [];
    const known = argumentsOf(source, procedure).map(({ letter, name }) =>
      name ? `${letter} ${name}` : letter,
    );
    const program = item(procedure.name, known.join(', '), '0', typed, place);
    return [{ ...program, kind: CompletionItemKind.Function }];
  });
}

function pad(order: number): string {
  return String(order).padStart(4, '0');
}
