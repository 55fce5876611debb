import { type Location, type SymbolInformation, SymbolKind } from 'vscode-languageserver';
import { proceduresOf } from '../analysis/procedures.ts';
import { isLocal } from '../program/parameters.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { KnownProgram } from '../workspace/relatedPrograms.ts';
import { blockParameters } from './blockParameters.ts';
import { parameterName, shownParameter } from './parameterName.ts';
import { rangeOf } from './ranges.ts';
import { routineName } from './routineName.ts';

/** More than these no list shows. */
const mostSymbols = 500;

/**
 * Subroutines, numbered programs and shared parameters by name whose names hold the query's letters in its order, in
 * programs that are open or were read because something calls them: no folder is searched.
 */
export function workspaceSymbols(query: string, known: readonly KnownProgram[]): SymbolInformation[] {
  const found: SymbolInformation[] = [];
  for (const program of known)
    for (const symbol of symbolsOf(program)) {
      if (!fits(symbol.name, query)) continue;
      found.push(symbol);
      if (found.length >= mostSymbols) return found;
    }
  return found;
}

function* symbolsOf({ uri, source }: KnownProgram): Iterable<SymbolInformation> {
  const containerName = fileName(uri);
  for (const procedure of proceduresOf(source).all) {
    const name = routineName(procedure);
    if (name === null || !procedure.place) continue;
    const location: Location = { uri, range: rangeOf(procedure.place) };
    yield { name, kind: SymbolKind.Function, location, containerName };
  }
  const seen = new Set<string>();
  for (const line of source.otherLines()) {
    if (!source.text.line(line).includes('#')) continue;
    for (const { parameter, isSet } of blockParameters(source, line)) {
      const name = parameterName(parameter);
      if (!isSet || name === null || seen.has(name) || /^\d/.test(name)) continue;
      seen.add(name);
      if (isLocal(name, source.dialect.name)) continue;
      const range = rangeOf({ line, start: parameter.start, end: parameter.end });
      yield {
        name: shownParameter(name),
        kind: SymbolKind.Variable,
        location: { uri, range },
        containerName,
      };
    }
  }
}

function fits(name: string, query: string): boolean {
  const letters = name.toLowerCase();
  let at = 0;
  for (const wanted of query.toLowerCase().replace(/\s/g, '')) {
    at = letters.indexOf(wanted, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
