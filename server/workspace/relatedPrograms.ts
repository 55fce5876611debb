import type { CalledFiles } from '../analysis/calledFiles.ts';
import { calledProcedure } from '../analysis/calledFiles.ts';
import { type CallSite, callSites } from '../analysis/callSites.ts';
import { type Procedure, proceduresOf } from '../analysis/procedures.ts';
import type { Source } from '../syntax/source.ts';
import { comparable } from './address.ts';
import type { Program } from './program.ts';

/** A program that is open, or was read because something calls it. */
export interface KnownProgram {
  readonly uri: string;
  readonly source: Source;
  /** Null: the file that a call of this name needs is not known, or there is none. */
  callee(name: string): Callee | null;
}

export interface Callee {
  readonly uri: string;
  readonly source: Source;
  readonly procedure: Procedure;
}

/** A call, and the program that it stands in. */
export interface Call {
  readonly site: CallSite;
  readonly program: KnownProgram;
}

/** Open programs and what they call, each once. */
export function knownPrograms(open: readonly Program[]): KnownProgram[] {
  const known = new Map<string, KnownProgram>();
  for (const { uri, source, called } of open)
    known.set(comparable(uri), knownProgram(uri, source, { uri, source }, 'program', called));
  for (const { uri: caller, source, called } of open)
    for (const [index, file] of called.files.entries()) {
      const key = comparable(file.uri);
      if (!known.has(key))
        known.set(key, knownProgram(file.uri, file.source, { uri: caller, source }, index, called));
    }
  return [...known.values()];
}

/** Those that calls connect with a program, in either direction and over others; itself first. */
export function relatedPrograms(uri: string, known: readonly KnownProgram[]): KnownProgram[] {
  const byAddress = new Map(known.map((program) => [comparable(program.uri), program] as const));
  const neighbours = new Map(known.map((program) => [program, new Set<KnownProgram>()] as const));
  for (const program of known)
    for (const { name } of callSites(program.source)) {
      const target = byAddress.get(comparable(program.callee(name)?.uri ?? program.uri));
      if (!target) continue;
      neighbours.get(program)?.add(target);
      neighbours.get(target)?.add(program);
    }
  const first = byAddress.get(comparable(uri));
  const found = new Set(first ? [first] : []);
  for (const program of found) for (const next of neighbours.get(program) ?? []) found.add(next);
  return [...found];
}

/** Every call that leads to this procedure of this file. */
export function* callsOf(
  target: { readonly uri: string; readonly procedure: Procedure },
  programs: readonly KnownProgram[],
): Iterable<Call> {
  const address = comparable(target.uri);
  for (const program of programs)
    for (const site of callSites(program.source)) {
      const callee = program.callee(site.name);
      if (callee?.procedure === target.procedure && comparable(callee.uri) === address)
        yield { site, program };
    }
}

function knownProgram(
  uri: string,
  source: Source,
  caller: { readonly uri: string; readonly source: Source },
  from: number | 'program',
  called: CalledFiles,
): KnownProgram {
  return {
    uri,
    source,
    callee(name) {
      const own = proceduresOf(source).byName.get(name);
      if (own) return { uri, source, procedure: own };
      const lead = called.lead(from, name);
      if (lead === null || 'reason' in lead) return null;
      const target = lead.file === 'program' ? caller : called.files[lead.file];
      const procedure = target && calledProcedure(proceduresOf(target.source), name, source.dialect.oWords);
      return procedure ? { uri: target.uri, source: target.source, procedure } : null;
    },
  };
}
