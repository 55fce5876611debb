import { type CancellationToken, LSPErrorCodes, ResponseError } from 'vscode-languageserver';
import type { RehearsalProblem, RehearseParams, RehearseResult } from '../protocol/requests.ts';
import { readSetup } from '../rehearsal/readSetup.ts';
import { type Rehearsal, rehearseInSteps } from '../rehearsal/rehearse.ts';
import { stopIfCancelled } from './guard.ts';
import { inPieces } from './inPieces.ts';
import { rehearsalView } from './rehearsalView.ts';
import type { Session } from './session.ts';

/** Rehearses an open program fault by fault, so that whatever comes in meanwhile goes first. */
export async function rehearseProgram(
  params: RehearseParams,
  session: Session,
  token: CancellationToken,
): Promise<RehearseResult> {
  const program = await session.newest(params.uri);
  if (!program)
    return refused({ message: 'Open the program first: what is rehearsed is what the editor shows.' });
  if (program.notChecked !== null) return refused({ message: program.notChecked, uri: params.uri });
  const { profile, problems } = program.profile;
  const unusable = problems.map((problem) => ({
    message: `The probe profile can’t be used: ${problem.message}`,
    uri: program.profile.uri,
    position: { line: problem.line, character: problem.start },
  }));
  if (unusable.length > 0) return { kind: 'refused', problems: unusable };
  const text = 'text' in params.setup ? params.setup.text : await setupText(params.setup.uri, session);
  const uri = 'uri' in params.setup ? params.setup.uri : null;
  if (text === null) return refused({ message: 'The setup cannot be read.', uri });
  const read = readSetup(text);
  if (read.setup === null) {
    const places = read.problems.map(({ message, line, start }) => ({
      message,
      uri,
      position: { line, character: start },
    }));
    return { kind: 'refused', problems: places };
  }
  const { source, called } = program;
  const rehearsal = await inSteps(
    rehearseInSteps(source, read.setup, profile, { called }),
    params,
    session,
    token,
  );
  const own = program.profile.uri;
  const restsOn = [...called.files.map((file) => file.uri), ...(own === null ? [] : [own])];
  return rehearsalView(rehearsal, restsOn, read.setup.units);
}

function refused(problem: Pick<RehearsalProblem, 'message'> & Partial<RehearsalProblem>): RehearseResult {
  return { kind: 'refused', problems: [{ uri: null, position: null, ...problem }] };
}

async function setupText(uri: string, { documents, files }: Session): Promise<string | null> {
  return documents.find(uri)?.text.toString() ?? (await files.read(uri));
}

async function inSteps(
  steps: ReturnType<typeof rehearseInSteps>,
  { workDoneToken }: RehearseParams,
  { connection, rim }: Session,
  token: CancellationToken,
): Promise<Rehearsal> {
  const report = connection.window.attachWorkDoneProgress(workDoneToken);
  report.begin('Rehearsing', 0, undefined, true);
  let found: Rehearsal | null = null;
  const piece = () => {
    const step = steps.next();
    if (step.done) found = step.value;
    else
      report.report(
        (100 * step.value.done) / step.value.all,
        `fault ${step.value.done + 1} of ${step.value.all}`,
      );
    return step.done === true;
  };
  try {
    await inPieces(rim, piece, () => !token.isCancellationRequested);
  } finally {
    report.done();
  }
  stopIfCancelled(token);
  if (found === null) throw new ResponseError(LSPErrorCodes.RequestFailed, 'The rehearsal came to no end.');
  return found;
}
