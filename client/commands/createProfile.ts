import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { type ProfileTemplateResult, profileTemplate } from '../../server/protocol/requests.ts';

export const profileName = 'probewright.json';

/** Writes a commented profile made of the built-in values and opens it; a profile that is there is only opened. */
export async function createProfile(client: LanguageClient): Promise<void> {
  const folder = await chooseFolder();
  if (!folder) return;
  const file = vscode.Uri.joinPath(folder, profileName);
  if (await exists(file)) {
    void vscode.window.showInformationMessage(`This folder has its ${profileName} already.`);
  } else {
    const { text } = await client.sendRequest<ProfileTemplateResult>(profileTemplate);
    await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(text));
  }
  await vscode.window.showTextDocument(file);
}

/** The workspace folder; without one, the folder of the open program. */
async function chooseFolder(): Promise<vscode.Uri | undefined> {
  const folders = vscode.workspace.workspaceFolders ?? [];
  if (folders.length > 1) {
    const placeHolder = 'Which folder is the probe profile for?';
    return (await vscode.window.showWorkspaceFolderPick({ placeHolder }))?.uri;
  }
  if (folders[0]) return folders[0].uri;
  const open = vscode.window.activeTextEditor?.document.uri;
  if (open && open.scheme !== 'untitled') return vscode.Uri.joinPath(open, '..');
  void vscode.window.showInformationMessage(
    'Open the folder with your programs first: the profile is kept in it.',
  );
  return undefined;
}

async function exists(file: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(file);
    return true;
  } catch {
    return false;
  }
}
