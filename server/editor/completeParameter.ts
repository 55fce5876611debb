import { type CompletionItem, CompletionItemKind } from 'vscode-languageserver';
import { parameterMeaning } from '../program/parameterMeaning.ts';
import { isLocal } from '../program/parameters.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Program } from '../workspace/program.ts';
import type { CompletionPlace } from './completion.ts';
import { shownParameter } from './parameterName.ts';
import { namesInScope } from './parameterScope.ts';
import { replaceBefore } from './replaceBefore.ts';

/** After `#`: what the program sets and can mean here, and what the control holds; null elsewhere. */
export function completeParameter({ source }: Program, place: CompletionPlace): CompletionItem[] | null {
  const typed = /#(?:<[^<>#[\]]*|\d*)$/.exec(place.before)?.[0];
  if (typed === undefined) return null;
  const dialect = source.dialect.name;
  const own = namesInScope(source, place.position.line).filter((name) => !isSystem(name, dialect));
  return [
    ...own.map((name) =>
      item(name, isLocal(name, dialect) ? 'of this routine' : 'shared', '1', typed, place),
    ),
    ...systemNames(dialect).map((name) =>
      item(name, parameterMeaning(name, dialect)?.title ?? '', '2', typed, place),
    ),
  ];
}

function item(
  name: string,
  detail: string,
  order: string,
  typed: string,
  place: CompletionPlace,
): CompletionItem {
  const shown = shownParameter(name);
  return {
    label: shown,
    kind: order === '1' ? CompletionItemKind.Variable : CompletionItemKind.Constant,
    detail,
    sortText: `${order}${shown}`,
    filterText: shown,
    textEdit: replaceBefore(place, typed.length, shown),
  };
}

function isSystem(name: string, dialect: DialectName): boolean {
  return parameterMeaning(name, dialect) !== null;
}

/** What probing needs of the control's own; every other number can still be typed. */
function systemNames(dialect: DialectName): string[] {
  const numbers = [
    ...upTo(5061, 5066),
    5070,
    5220,
    5400,
    5410,
    ...upTo(5001, 5003),
    ...upTo(5021, 5023),
    ...upTo(5041, 5043),
  ];
  return numbers.map(String).filter((name) => isSystem(name, dialect));
}

function upTo(from: number, to: number): number[] {
  return Array.from({ length: to - from + 1 }, (_, index) => from + index);
}
