import {
  type CallHierarchyIncomingCall,
  type CallHierarchyItem,
  type CallHierarchyOutgoingCall,
  type Position,
  SymbolKind,
} from 'vscode-languageserver';
import { callSites } from '../analysis/callSites.ts';
import { type Procedure, proceduresOf } from '../analysis/procedures.ts';
import type { Place } from '../syntax/place.ts';
import { comparable } from '../workspace/address.ts';
import { fileName } from '../workspace/documentKind.ts';
import { type Callee, callsOf, type KnownProgram } from '../workspace/relatedPrograms.ts';
import { nameAt, procedureAt, procedureHolds } from './names.ts';
import { rangeOf } from './ranges.ts';
import { routineName, routineNameRange, routineRange } from './routineName.ts';

/** The subroutine that is called or begins at a position. */
export function prepareCallHierarchy(
  program: KnownProgram,
  { line, character }: Position,
): CallHierarchyItem[] | null {
  const name = nameAt(program.source, line, character)?.name;
  const callee = name?.kind === 'subroutine' ? program.callee(name.name) : null;
  return callee ? [itemOf(callee)] : null;
}

export function incomingCalls(
  item: CallHierarchyItem,
  known: readonly KnownProgram[],
): CallHierarchyIncomingCall[] {
  const target = procedureOf(item, known);
  if (!target) return [];
  const groups = new Grouped();
  for (const { site, program } of callsOf(target, known)) {
    const procedure = procedureAt(program.source, site.place.line);
    if (procedure) groups.add({ ...program, procedure }, site.place);
  }
  return groups
    .all()
    .map(({ routine, places }) => ({ from: itemOf(routine), fromRanges: places.map(rangeOf) }));
}

/** What it calls, in files that are known. */
export function outgoingCalls(
  item: CallHierarchyItem,
  known: readonly KnownProgram[],
): CallHierarchyOutgoingCall[] {
  const caller = procedureOf(item, known);
  if (!caller) return [];
  const groups = new Grouped();
  for (const { name, place } of callSites(caller.source)) {
    const callee = procedureHolds(caller.procedure, place.line) ? caller.program.callee(name) : null;
    if (callee) groups.add(callee, place);
  }
  return groups
    .all()
    .map(({ routine, places }) => ({ to: itemOf(routine), fromRanges: places.map(rangeOf) }));
}

function itemOf({ uri, source, procedure }: Callee): CallHierarchyItem {
  const name = routineName(procedure);
  return {
    name: name ?? fileName(uri),
    kind: name === null ? SymbolKind.Module : SymbolKind.Function,
    detail: fileName(uri),
    uri,
    range: routineRange(procedure, source),
    selectionRange: routineNameRange(procedure, source),
    data: procedure.name,
  };
}

/** The procedure that an item was made of, as its program stands now: by its name, which edits elsewhere do not move. */
function procedureOf(
  { uri, data }: CallHierarchyItem,
  known: readonly KnownProgram[],
): (Callee & { readonly program: KnownProgram }) | null {
  const address = comparable(uri);
  const program = known.find((each) => comparable(each.uri) === address);
  const procedure = program && proceduresOf(program.source).all.find(({ name }) => name === data);
  return procedure ? { uri: program.uri, source: program.source, procedure, program } : null;
}

/** Places of calls by the routine at their other end. */
class Grouped {
  readonly #groups = new Map<Procedure, { readonly routine: Callee; readonly places: Place[] }>();

  add(routine: Callee, place: Place): void {
    const group = this.#groups.get(routine.procedure) ?? { routine, places: [] };
    this.#groups.set(routine.procedure, group);
    group.places.push(place);
  }

  all() {
    return [...this.#groups.values()];
  }
}
