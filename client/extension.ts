import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  allowHereCommand,
  bringUpToDateCommand,
  explainRuleCommand,
  writeRoutineCommand,
} from '../server/protocol/requests.ts';
import { allowHere } from './commands/allowHere.ts';
import { bringUpToDate } from './commands/bringUpToDate.ts';
import { calibrate, planCalibration, showProbe } from './commands/calibrate.ts';
import { createProfile } from './commands/createProfile.ts';
import { explainRule } from './commands/explainRule.ts';
import { openDemo } from './commands/openDemo.ts';
import { rehearse } from './commands/rehearse.ts';
import { showErrors } from './commands/showErrors.ts';
import { verifyCalibration } from './commands/verifyCalibration.ts';
import { whereWeAre } from './commands/whereWeAre.ts';
import { writeRoutine } from './commands/writeRoutine.ts';
import { createLanguageClient, language } from './languageServer.ts';
import { tellOfLargeFiles } from './largeFiles.ts';
import { Pages } from './pages.ts';
import { RehearsalPanels } from './panels/rehearsalPanel.ts';
import { showProfileStatus } from './profileStatus.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const client = createLanguageClient(context);
  const pages = new Pages(client);
  const rehearsals = new RehearsalPanels();
  context.subscriptions.push(
    { dispose: () => void client.dispose() },
    pages,
    rehearsals,
    showProfileStatus(),
    tellOfLargeFiles(programEndings(context)),
  );
  const commands: Readonly<Record<string, (...given: never[]) => unknown>> = {
    [writeRoutineCommand]: () => writeRoutine(client),
    [explainRuleCommand]: (rule?: string) => explainRule(client, pages, rule),
    [allowHereCommand]: (uri: string, line: number, rule: string, reason?: string) =>
      allowHere(client, uri, line, rule, reason),
    [bringUpToDateCommand]: (uri?: string, line?: number) => bringUpToDate(client, pages, uri, line),
    'probewright.rehearse': () => rehearse(client, rehearsals),
    'probewright.showErrors': () => showErrors(client, pages),
    'probewright.calibrate': () => calibrate(client, pages),
    'probewright.planCalibration': () => planCalibration(client, pages),
    'probewright.verifyCalibration': () => verifyCalibration(client, pages),
    'probewright.showProbe': () => showProbe(pages),
    'probewright.showRoutines': () => pages.showRoutines(whereWeAre()),
    'probewright.createProfile': () => createProfile(client),
    'probewright.showEffectiveProfile': () => showEffectiveProfile(pages),
    'probewright.openDemo': () => openDemo(context.extensionUri),
    'probewright.restartServer': () => restart(client),
  };
  for (const [name, run] of Object.entries(commands))
    context.subscriptions.push(vscode.commands.registerCommand(name, run));
  await start(client);
}

/** As the manifest has them. */
function programEndings({ extension }: vscode.ExtensionContext): string[] {
  const { languages } = extension.packageJSON.contributes as {
    languages: readonly { id: string; extensions?: string[] }[];
  };
  return languages.flatMap(({ id, extensions }) => (id === language ? (extensions ?? []) : []));
}

async function showEffectiveProfile(pages: Pages): Promise<void> {
  const program = vscode.window.activeTextEditor?.document.uri;
  if (program) await pages.showProfile(program);
  else
    void vscode.window.showInformationMessage(
      'Open a program: the profile nearest to it is the one that holds.',
    );
}

async function start(client: LanguageClient): Promise<void> {
  try {
    await client.start();
  } catch (error) {
    await sayItFailed(client, 'did not start', error);
  }
}

async function restart(client: LanguageClient): Promise<void> {
  try {
    await client.restart();
    vscode.window.setStatusBarMessage('Probewright: the server was restarted', 4000);
  } catch (error) {
    await sayItFailed(client, 'did not restart', error);
  }
}

async function sayItFailed(client: LanguageClient, what: string, error: unknown): Promise<void> {
  const log = 'Show the log';
  const answer = await vscode.window.showErrorMessage(`Probewright's server ${what}: ${error}`, log);
  if (answer === log) client.outputChannel.show();
}
