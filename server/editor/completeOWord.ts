import { type CompletionItem, CompletionItemKind, InsertTextFormat } from 'vscode-languageserver';
import { proceduresOf } from '../analysis/procedures.ts';
import type { Source } from '../syntax/source.ts';
import { argumentsOf } from './callArguments.ts';
import type { CompletionPlace } from './completion.ts';
import { keywordItem as item } from './keywordItem.ts';
import { type Open, openBefore, shownLabel } from './keywordPlace.ts';
import { keywordMeanings } from './keywords.ts';
import { replaceBefore } from './replaceBefore.ts';

/** At the start of a block, and behind an O label. */
export function completeOWord(source: Source, place: CompletionPlace, snippets: boolean): CompletionItem[] {
  const behind = /^[\s/\d]*(?:n\d+\s*)?(o\s*(?:<[^<>]*>|\d+)\s+)([a-z]*)$/i.exec(place.before);
  if (behind) return behindLabel(source, place, plainLabel(behind[1] ?? ''), behind[2] ?? '');
  const typed = /^[\s/\d]*(?:n\d+\s*)?(|o(?:<[^<>]*|\d*)|[a-z]+)$/i.exec(place.before)?.[1];
  if (typed === undefined) return [];
  const open = openBefore(source, place.position.line);
  const ends = open.reverse().flatMap((each, depth) => endsOf(each).map((text) => ({ text, depth })));
  return [
    ...ends.map(({ text, depth }) =>
      item(text, 'ends or goes on with what is open', `0${depth}`, typed, place),
    ),
    ...(typed === '' ? [] : callItems(source, place, typed, snippets)),
  ];
}

/** The label stands: what may follow it here. */
function behindLabel(source: Source, place: CompletionPlace, label: string, typed: string): CompletionItem[] {
  const open = openBefore(source, place.position.line).findLast((each) => each.label === label);
  const known = proceduresOf(source).all.some(({ name }) => name !== null && shownLabel(name) === label);
  const words = open ? endsOf(open).map((text) => text.slice(label.length + 1)) : startWords(label, known);
  return words.map((word, index) => {
    const meaning = keywordMeanings[word as keyof typeof keywordMeanings];
    return item(word, meaning?.title ?? '', String(index), typed, place);
  });
}

function startWords(label: string, isRoutine: boolean): string[] {
  if (isRoutine) return ['call'];
  return label.startsWith('o<')
    ? ['call', 'sub', 'if', 'while', 'repeat', 'do']
    : ['if', 'while', 'repeat', 'do', 'call', 'sub'];
}

function endsOf({ keyword, label }: Open): string[] {
  switch (keyword) {
    case 'sub':
      return [`${label} endsub`, `${label} return`];
    case 'if':
      return [`${label} endif`, `${label} else`, `${label} elseif`];
    case 'while':
      return [`${label} endwhile`, `${label} break`, `${label} continue`];
    case 'repeat':
      return [`${label} endrepeat`, `${label} break`, `${label} continue`];
    case 'do':
      return [`${label} while`, `${label} break`, `${label} continue`];
  }
}

function callItems(
  source: Source,
  place: CompletionPlace,
  typed: string,
  snippets: boolean,
): CompletionItem[] {
  return proceduresOf(source).all.flatMap((procedure) => {
    if (procedure.name === null) return [];
    const known = argumentsOf(source, procedure);
    const label = `${shownLabel(procedure.name)} call`;
    const shown = [label, ...known.map(({ number, name }) => `[${name ?? `#${number}`}]`)].join(' ');
    const call = item(label, '', '2', typed, place, CompletionItemKind.Function);
    const written = snippets
      ? [label, ...known.map(({ number, name }, at) => `[\${${at + 1}:${escaped(name ?? String(number))}}]`)]
      : null;
    return {
      ...call,
      detail: shown,
      ...(written && known.length > 0
        ? {
            insertTextFormat: InsertTextFormat.Snippet,
            textEdit: replaceBefore(place, typed.length, written.join(' ')),
          }
        : {}),
    };
  });
}

function escaped(text: string): string {
  return text.replace(/[\\$}]/g, '\\$&');
}

/** `o 100 ` and `O<Edge> ` as the parser compares labels. */
function plainLabel(written: string): string {
  const bare = written.toLowerCase().replace(/\s/g, '');
  const digits = /^o(\d+)$/.exec(bare)?.[1];
  return digits === undefined ? bare : `o${Number(digits)}`;
}
