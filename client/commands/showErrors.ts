import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type ShowErrorsParams,
  type ShowErrorsResult,
  showErrors as showErrorsRequest,
} from '../../server/protocol/requests.ts';
import type { Pages } from '../pages.ts';

/** What the program's touches are worth, and whether a tolerance can be decided by them. */
export async function showErrors(client: LanguageClient, pages: Pages): Promise<void> {
  const program = vscode.window.activeTextEditor?.document.uri;
  if (!program) {
    void vscode.window.showInformationMessage('Open a program: its touches are what is looked at.');
    return;
  }
  const tolerance = await vscode.window.showInputBox({
    title: 'Errors to expect',
    prompt:
      'A tolerance ± that is to be decided, such as 0.01 or 0.0004in. Leave it empty to see the errors alone.',
    ignoreFocusOut: true,
  });
  if (tolerance === undefined) return;
  const params: ShowErrorsParams = {
    uri: program.toString(),
    tolerance: tolerance === '' ? null : tolerance,
  };
  const result = await client.sendRequest<ShowErrorsResult>(showErrorsRequest, params);
  if (result.kind === 'shown') await pages.showMade(result.page);
  else void vscode.window.showErrorMessage(result.message);
}
