import { type Analysis, analyse } from '../analysis/analysis.ts';
import { datumError, touchError } from '../analysis/error.ts';
import type { Datum, Modes, Touch } from '../analysis/model.ts';
import { readerUnit } from '../checks/quantity.ts';
import type { Profile } from '../profile/profile.ts';
import { errorJson } from '../report/errorJson.ts';
import type { ErrorReport } from '../report/errorReport.ts';
import { errorText } from '../report/errorText.ts';
import { quantities } from '../report/quantities.ts';
import { styleFor } from '../report/style.ts';
import { dialects } from '../syntax/dialects.ts';
import { Source } from '../syntax/source.ts';
import { dialectOf } from '../workspace/openDocument.ts';
import { callsOf, shownFile } from './callsOf.ts';
import { answers, type QuestionOptions, type Questions, readQuestions } from './errorQuestions.ts';
import { profiles } from './profileOf.ts';
import { programPaths } from './programPaths.ts';
import { readProgram } from './readProgram.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

export interface ErrorOptions extends QuestionOptions {
  readonly format: 'text' | 'json';
  readonly profile: string | null;
}

/** `probewright error FILE`: how wrong each touch and each datum of a program can be with this probe. */
export async function error(name: string, options: ErrorOptions, terminal: Terminal): Promise<ExitStatus> {
  const paths = programPaths([name], terminal);
  if ('problems' in paths) return refuse(terminal, paths.problems);
  const [path, second] = paths.paths;
  if (path === undefined || second !== undefined || path.walked)
    return refuse(terminal, [`${name}: a folder; name one program.`]);
  const profile = profiles(options.profile, terminal)(path.absolute);
  if ('faults' in profile) return refuse(terminal, profile.faults);
  const questions = readQuestions(options, profile.profile.units);
  if ('problem' in questions) return refuse(terminal, [questions.problem]);
  const read = await readProgram(path, terminal);
  if ('problem' in read) return refuse(terminal, [read.problem]);
  const { text } = read;
  const source = Source.from(text, dialects[dialectOf(text, profile)]);
  const called = await callsOf(terminal)(path.absolute, source);
  const analysis = analyse(source, profile.profile, called);
  const shown = (uri: string) => shownFile(uri, terminal);
  const report = errorReport(path.shown, analysis, profile.profile, shown, questions);
  terminal.out(
    options.format === 'json'
      ? errorJson(report)
      : errorText(report, styleFor(terminal.colour), terminal.width),
  );
  return 0;
}

/** What the program reaches in files that it calls stands behind its own, each with the name of its file. */
function errorReport(
  path: string,
  analysis: Analysis,
  profile: Profile,
  shown: (uri: string) => string,
  questions: Questions,
): ErrorReport {
  const showAt = (modes: Modes | undefined) => quantities(modes ? readerUnit(modes, profile) : profile.units);
  const named = (touch: Touch) => (touch.file === null ? touch : { ...touch, file: shown(touch.file) });
  const namedIn = (datum: Datum): Datum => ({
    ...datum,
    file: datum.file && shown(datum.file),
    terms: datum.terms?.map((term) => ({ ...term, touch: named(term.touch) })) ?? null,
  });
  const { elsewhere } = analysis;
  return {
    path,
    dialect: analysis.source.dialect.name,
    profile,
    touches: [...analysis.touches, ...elsewhere.touches].map((touch) => ({
      touch: named(touch),
      error: touchError(touch, analysis, profile),
      show: showAt(touch.modes),
    })),
    datums: [...analysis.datums, ...elsewhere.datums].map(namedIn).map((datum) => {
      const error = datumError(datum, profile);
      const modes = datum.file === null ? analysis.stateAt(datum.line)?.modes : datum.terms?.[0]?.touch.modes;
      return { datum, error, show: showAt(modes), answers: answers(datum, error, profile, questions) };
    }),
    notKnown: analysis.notKnown,
  };
}
