import * as vscode from 'vscode';

const folderName = 'pump-housing-demo';

/** Copies the demo job into a folder of the person's choice and opens it; the extension's own copy stays as it is. */
export async function openDemo(extensionUri: vscode.Uri): Promise<void> {
  const chosen = await vscode.window.showOpenDialog({
    title: `Where is the folder ${folderName} to stand?`,
    openLabel: 'Put the demo here',
    canSelectFolders: true,
    canSelectFiles: false,
  });
  const parent = chosen?.[0];
  if (!parent) return;
  const demo = vscode.Uri.joinPath(parent, folderName);
  const original = vscode.Uri.joinPath(extensionUri, 'client/walkthrough/demo');
  try {
    await vscode.workspace.fs.copy(original, demo, { overwrite: false });
  } catch (error) {
    if (!(error instanceof vscode.FileSystemError && error.code === 'FileExists')) throw error;
  }
  const newWindow = (vscode.workspace.workspaceFolders?.length ?? 0) > 0;
  await vscode.commands.executeCommand('vscode.openFolder', demo, { forceNewWindow: newWindow });
}
