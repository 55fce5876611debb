import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type RoutineUpdate,
  type RoutineUpdateParams,
  routineUpdate,
} from '../../server/protocol/requests.ts';
import type { Pages } from '../pages.ts';

/**
 * Writes a generated routine anew where the profile has changed since; one that was changed by hand is only compared with
 * what would be written. Without a line: the routine at the cursor.
 */
export async function bringUpToDate(
  client: LanguageClient,
  pages: Pages,
  uri = vscode.window.activeTextEditor?.document.uri.toString(),
  line = vscode.window.activeTextEditor?.selection.active.line,
): Promise<void> {
  if (uri === undefined || line === undefined) return;
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
  const params: RoutineUpdateParams = { uri, line };
  const update = await client.sendRequest<RoutineUpdate | null>(routineUpdate, params);
  if (update === null || update.version !== document.version) {
    const message = 'Here stands no written routine that the profile would give otherwise now.';
    void vscode.window.showInformationMessage(message);
    return;
  }
  const { start, end } = update.edit.range;
  const range = new vscode.Range(start.line, start.character, end.line, end.character);
  if (update.isEdited) await compare(document, range, update, pages);
  else {
    const change = new vscode.WorkspaceEdit();
    change.replace(document.uri, range, update.edit.newText);
    await vscode.workspace.applyEdit(change);
  }
}

/** On the left as it would be written, on the right the program, which can be edited there. */
async function compare(
  document: vscode.TextDocument,
  range: vscode.Range,
  { title, edit }: RoutineUpdate,
  pages: Pages,
): Promise<void> {
  const text = document.getText();
  const [from, to] = [document.offsetAt(range.start), document.offsetAt(range.end)];
  const name = document.uri.path.slice(document.uri.path.lastIndexOf('/') + 1);
  const now = pages.madeText(name, `${text.slice(0, from)}${edit.newText}${text.slice(to)}`);
  await vscode.commands.executeCommand(
    'vscode.diff',
    now,
    document.uri,
    `${title} as it would be written now ↔ ${name}`,
  );
}
