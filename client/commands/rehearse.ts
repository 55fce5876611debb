import * as vscode from 'vscode';
import { type LanguageClient, WorkDoneProgress } from 'vscode-languageclient/node';
import {
  type RehearsalProblem,
  type RehearseParams,
  type RehearseResult,
  rehearse as rehearseRequest,
} from '../../server/protocol/requests.ts';
import { language } from '../languageServer.ts';
import { fileName, type RehearsalPanels } from '../panels/rehearsalPanel.ts';

let lastToken = 0;

/** Rehearses the program in the editor in the setup beside it, or in one that the person chooses. */
export async function rehearse(client: LanguageClient, panels: RehearsalPanels): Promise<void> {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId !== language) {
    void vscode.window.showInformationMessage('Open a program first: it is the one that is rehearsed.');
    return;
  }
  const setup = (await setupBeside(document.uri)) ?? (await chooseSetup(document.uri));
  if (!setup) return;
  const result = await ask(client, document.uri, setup);
  if (result?.kind === 'rehearsed') panels.show(result, document.uri, fileName(setup));
  else if (result) await sayWhyNot(result.problems);
}

/** `bore.setup.json` beside `bore.ngc`. */
async function setupBeside(program: vscode.Uri): Promise<vscode.Uri | null> {
  if (program.scheme === 'untitled') return null;
  const setup = program.with({ path: `${program.path.replace(/\.[^./]+$/, '')}.setup.json` });
  try {
    await vscode.workspace.fs.stat(setup);
    return setup;
  } catch {
    return null;
  }
}

async function chooseSetup(program: vscode.Uri): Promise<vscode.Uri | undefined> {
  const chosen = await vscode.window.showOpenDialog({
    title: 'Which setup does the program run in?',
    openLabel: 'Rehearse in this setup',
    filters: { 'Setups (JSON)': ['json'] },
    ...(program.scheme !== 'untitled' && { defaultUri: vscode.Uri.joinPath(program, '..') }),
  });
  return chosen?.[0];
}

/** null: the person gave it up. */
async function ask(
  client: LanguageClient,
  program: vscode.Uri,
  setup: vscode.Uri,
): Promise<RehearseResult | null> {
  const title = `Rehearsing ${fileName(program)}`;
  const location = vscode.ProgressLocation.Notification;
  return vscode.window.withProgress({ title, location, cancellable: true }, async (progress, cancel) => {
    const workDoneToken = `rehearsal ${++lastToken}`;
    let shown = 0;
    const following = client.onProgress(WorkDoneProgress.type, workDoneToken, (value) => {
      if (value.kind !== 'report') return;
      const { message = '', percentage = shown } = value;
      progress.report({ message, increment: percentage - shown });
      shown = percentage;
    });
    const params: RehearseParams = {
      uri: program.toString(),
      setup: { uri: setup.toString() },
      workDoneToken,
    };
    try {
      return await client.sendRequest<RehearseResult>(rehearseRequest, params, cancel);
    } catch (error) {
      if (cancel.isCancellationRequested) return null;
      throw error;
    } finally {
      following.dispose();
    }
  });
}

async function sayWhyNot(problems: readonly RehearsalProblem[]): Promise<void> {
  const [first] = problems;
  if (!first) return;
  const { uri, position } = first;
  const more = problems.length > 1 ? ` (and ${problems.length - 1} more)` : '';
  const open = 'Show the place';
  const said = `Not rehearsed: ${first.message}${more}`;
  const choices = uri !== null && position !== null ? [open] : [];
  const answer = await vscode.window.showErrorMessage(said, ...choices);
  if (answer !== open || uri === null || position === null) return;
  const at = new vscode.Position(position.line, position.character);
  await vscode.window.showTextDocument(vscode.Uri.parse(uri), { selection: new vscode.Range(at, at) });
}
