import {
  type CompletionItem,
  CompletionItemKind,
  InsertTextFormat,
  InsertTextMode,
} from 'vscode-languageserver';
import type { Profile } from '../profile/profile.ts';
import { type Row, resultErrors } from '../report/errorToExpect.ts';
import { routines } from '../routines/registry.ts';
import type { Routine } from '../routines/routine.ts';
import type { Program } from '../workspace/program.ts';
import type { CompletionPlace } from './completion.ts';
import { replaceBefore } from './replaceBefore.ts';
import { type RoutinePlace, routinePlace } from './routinePlace.ts';
import { routineText } from './routineRequests.ts';

/** Beyond this many lines it takes too long to say at each key what is in force; the command still writes. */
const mostLines = 5000;

/** At the start of a line: whole routines, written for this probe, dialect and units with every input at its default. */
export function completeRoutine(program: Program, place: CompletionPlace): CompletionItem[] {
  const typed = /^\s*((?:[a-z][a-z -]*)?)$/i.exec(place.before)?.[1];
  if (typed === undefined || program.source.lineCount > mostLines || program.profile.problems.length > 0)
    return [];
  const where = routinePlace(program, place.position.line);
  return [...textsAt(where)].map(([routine, text]) => {
    const errors = usualErrors(routine, where);
    const expected = errors.map((each) => `- ${each.title}: ${each.text}`);
    return {
      label: `probe ${routine.name}`,
      kind: CompletionItemKind.Snippet,
      detail: routine.title,
      filterText: `probe ${routine.name}`,
      sortText: `0${routine.name}`,
      insertTextFormat: InsertTextFormat.PlainText,
      insertTextMode: InsertTextMode.asIs,
      textEdit: replaceBefore(place, typed.length, text.trim()),
      data: {
        kind: 'routine',
        about: [routine.summary, '', 'Expected errors:', '', ...expected].join('\n'),
      },
    };
  });
}

/** Those written last with a profile, and what for: most keys change nothing that a routine has to fit in with. */
const writtenLast = new WeakMap<Profile, { readonly fits: string; readonly texts: Texts }>();

type Texts = ReadonlyMap<Routine, string>;

/** The routines that can be written at a place with every input at its default. */
function textsAt(where: RoutinePlace): Texts {
  const { profile, usedParameters, usedLabels, ...rest } = where;
  const fits = JSON.stringify([rest, [...usedParameters].sort(), [...usedLabels].map(String).sort()]);
  const last = writtenLast.get(profile.profile);
  if (last?.fits === fits) return last.texts;
  const texts = new Map<Routine, string>();
  for (const routine of routines) {
    const written = routineText(routine, where, 'inline', {});
    if ('text' in written) texts.set(routine, written.text);
  }
  writtenLast.set(profile.profile, { fits, texts });
  return texts;
}

const known = new WeakMap<Profile, Map<string, readonly Row[]>>();

/** With every input at its default they are the same wherever the routine is to stand. */
function usualErrors(routine: Routine, { profile: { profile }, units }: RoutinePlace): readonly Row[] {
  const ofProfile = known.get(profile) ?? new Map<string, readonly Row[]>();
  known.set(profile, ofProfile);
  const key = `${routine.name} ${units}`;
  const rows = ofProfile.get(key) ?? resultErrors(routine, {}, profile, units);
  ofProfile.set(key, rows);
  return rows;
}
