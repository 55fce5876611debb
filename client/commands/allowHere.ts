import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type AllowHereParams,
  type AllowHereResult,
  allowHere as allowHereRequest,
} from '../../server/protocol/requests.ts';

/** Asks, where no reason is given, why a finding is right as it stands, and writes it into the program. 0-based line. */
export async function allowHere(
  client: LanguageClient,
  uri: string,
  line: number,
  rule: string,
  givenReason?: string,
): Promise<void> {
  const reason = givenReason ?? (await askReason(line, rule));
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

function askReason(line: number, rule: string): Thenable<string | undefined> {
  return vscode.window.showInputBox({
    title: `Allow ${rule} at line ${line + 1}`,
    prompt: 'Why is it right here? The reason stands in the program, for whoever reads it next.',
    placeHolder: 'because…',
    validateInput: (text) => (text.trim() === '' ? 'A reason must stand here.' : null),
  });
}
