import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type AllowHereParams,
  type AllowHereResult,
  allowHere as allowHereRequest,
} from '../../server/protocol/requests.ts';

/** Asks why a finding is right as it stands, and writes that into the program. `line` is 0-based. */
export async function allowHere(
  client: LanguageClient,
  uri: string,
  line: number,
  rule: string,
): Promise<void> {
  const reason = await vscode.window.showInputBox({
    title: `Allow ${rule} at line ${line + 1}`,
    prompt: 'Why is it right here? The reason stands in the program, for whoever reads it next.',
    placeHolder: 'because…',
    validateInput: (text) => (text.trim() === '' ? 'A reason must stand here.' : null),
  });
  if (reason === undefined) return;
  const params: AllowHereParams = { uri, line, rule, reason };
  const { edits } = await client.sendRequest<AllowHereResult>(allowHereRequest, params);
  const change = new vscode.WorkspaceEdit();
  const document = vscode.Uri.parse(uri);
  for (const { range, newText } of edits) {
    const { start, end } = range;
    change.replace(document, new vscode.Range(start.line, start.character, end.line, end.character), newText);
  }
  await vscode.workspace.applyEdit(change);
}
