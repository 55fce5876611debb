import { type DocumentSymbol, type Range, type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import type { Datum, Touch } from '../analysis/model.ts';
import { type Procedure, proceduresOf } from '../analysis/procedures.ts';
import { directionName } from '../report/direction.ts';
import type { Source } from '../syntax/source.ts';
import type { Program } from '../workspace/program.ts';
import { type JumpTarget, jumpTargets } from './jumpTargets.ts';
import { rangeOf } from './ranges.ts';
import { routineName, routineNameRange, routineRange } from './routineName.ts';

/** Routines with their touches, datums and jump targets in them, those of the main program beside them. */
export function documentSymbols({ source, analysis }: Program): DocumentSymbol[] {
  const inner = [
    ...touchesOnce(analysis.touches).map(touchSymbol),
    ...datumsOnce(analysis.datums).map(datumSymbol),
    ...jumpTargets(source).map(targetSymbol),
  ];
  inner.sort((a, b) => a.range.start.line - b.range.start.line);
  const routines = proceduresOf(source).all.flatMap((procedure) => routineSymbol(procedure, source) ?? []);
  const outside: DocumentSymbol[] = [];
  for (const symbol of inner) {
    const routine = routines.find(({ range }) => holds(range, symbol.range.start.line));
    if (routine) routine.children?.push(symbol);
    else outside.push(symbol);
  }
  return [...routines, ...outside].sort((a, b) => a.range.start.line - b.range.start.line);
}

/** For clients that know no nesting. */
export function flatSymbols(
  symbols: readonly DocumentSymbol[],
  uri: string,
  container = '',
): SymbolInformation[] {
  return symbols.flatMap((symbol) => [
    {
      name: symbol.detail ? `${symbol.name} ${symbol.detail}` : symbol.name,
      kind: symbol.kind,
      location: { uri, range: symbol.range },
      ...(container === '' ? {} : { containerName: container }),
    },
    ...flatSymbols(symbol.children ?? [], uri, symbol.name),
  ]);
}

function routineSymbol(procedure: Procedure, source: Source): DocumentSymbol | null {
  if (procedure.place === null || procedure.header < 0) return null;
  return {
    name: routineName(procedure) ?? 'routine',
    kind: SymbolKind.Function,
    range: routineRange(procedure, source),
    selectionRange: routineNameRange(procedure, source),
    children: [],
  };
}

function targetSymbol({ number, place }: JumpTarget): DocumentSymbol {
  const range = rangeOf(place);
  return { name: `N${number}`, kind: SymbolKind.Key, range, selectionRange: range };
}

function touchSymbol(touch: Touch): DocumentSymbol {
  const range = rangeOf(touch.place);
  return {
    name: `Touch ${directionName(touch.direction)}`,
    detail: touch.code,
    kind: SymbolKind.Event,
    range,
    selectionRange: range,
  };
}

function datumSymbol(datum: Datum): DocumentSymbol {
  const range = rangeOf(datum.place);
  return { name: `Datum ${datum.target}`, kind: SymbolKind.Constant, range, selectionRange: range };
}

/** A touch that several calls reach stands once. */
function touchesOnce(touches: readonly Touch[]): Touch[] {
  return [...new Map(touches.map((touch) => [touch.line, touch])).values()];
}

function datumsOnce(datums: readonly Datum[]): Datum[] {
  return [...new Map(datums.map((datum) => [`${datum.line} ${datum.target}`, datum])).values()];
}

function holds(range: Range, line: number): boolean {
  return range.start.line <= line && line <= range.end.line;
}
