import { analyse } from '../analysis/analysis.ts';
import { errorJson } from '../report/errorJson.ts';
import { type QuestionOptions, readQuestions } from '../report/errorQuestions.ts';
import { errorReportOf } from '../report/errorReportOf.ts';
import { errorText } from '../report/errorText.ts';
import { styleFor } from '../report/style.ts';
import { dialects } from '../syntax/dialects.ts';
import { Source } from '../syntax/source.ts';
import { dialectOf } from '../workspace/openDocument.ts';
import { callsOf, shownFile } from './callsOf.ts';
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
  const report = errorReportOf(path.shown, analysis, profile.profile, shown, questions);
  terminal.out(
    options.format === 'json'
      ? errorJson(report)
      : errorText(report, styleFor(terminal.colour), terminal.width),
  );
  return 0;
}
