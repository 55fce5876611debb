import * as vscode from 'vscode';
import { type LanguageClient, WorkDoneProgress } from 'vscode-languageclient/node';
import {
  type ProposeSetupParams,
  type ProposeSetupResult,
  proposeSetup,
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
  const setup = (await setupBeside(document.uri)) ?? (await otherSetup(client, document.uri));
  if (!setup) return;
  const result = await ask(client, document.uri, setup);
  if (result?.kind === 'rehearsed') panels.show(result, document.uri, setup);
  else if (result) await sayWhyNot(result.problems);
}

/** `bore.setup.json` for `bore.ngc`. */
function nameBeside(program: vscode.Uri): vscode.Uri {
  return program.with({ path: `${program.path.replace(/\.[^./]+$/, '')}.setup.json` });
}

async function setupBeside(program: vscode.Uri): Promise<vscode.Uri | null> {
  if (program.scheme === 'untitled') return null;
  const setup = nameBeside(program);
  try {
    await vscode.workspace.fs.stat(setup);
    return setup;
  } catch {
    return null;
  }
}

/** Where none lies beside the program; null: the person gave it up, or has a proposal to look through first. */
async function otherSetup(client: LanguageClient, program: vscode.Uri): Promise<vscode.Uri | null> {
  const propose = {
    label: 'Propose a setup',
    detail: 'A part where the program touches one, and a machine around it: guesses, for you to make true.',
  };
  const choose = { label: 'Choose a setup file…', detail: 'Any *.setup.json that you have.' };
  const answer = await vscode.window.showQuickPick([propose, choose], {
    title: `${fileName(program)} has no setup beside it`,
    placeHolder: 'A rehearsal needs to know what stands in the machine',
  });
  if (answer === choose) return (await chooseSetup(program)) ?? null;
  if (answer === propose) await showProposal(client, program);
  return null;
}

/** Shows the proposal as the file that the next rehearsal will take. */
async function showProposal(client: LanguageClient, program: vscode.Uri): Promise<void> {
  const params: ProposeSetupParams = { uri: program.toString() };
  const proposal = await client.sendRequest<ProposeSetupResult>(proposeSetup, params);
  if (proposal.kind === 'none') {
    void vscode.window.showWarningMessage(proposal.message);
    return;
  }
  const document =
    program.scheme === 'untitled'
      ? await vscode.workspace.openTextDocument({ language: 'jsonc', content: proposal.text })
      : await fileWith(nameBeside(program), proposal.text);
  await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside });
}

async function fileWith(uri: vscode.Uri, text: string): Promise<vscode.TextDocument> {
  const edit = new vscode.WorkspaceEdit();
  edit.createFile(uri, { ignoreIfExists: true, contents: new TextEncoder().encode(text) });
  await vscode.workspace.applyEdit(edit);
  return vscode.workspace.openTextDocument(uri);
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
