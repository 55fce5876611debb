import * as vscode from 'vscode';

/**
 * VS Code hands no document of more characters than this to any extension (seen in the code of version 1.100). A file has
 * at least as many bytes as characters.
 */
const mostCharacters = 50 * 1024 * 1024;

/**
 * Says once for each program that is too large for the editor's extensions why nothing is found in it.
 * @param endings how programs are named: `.ngc`, `.nc`, …
 * @param tell what shows the note
 */
export function tellOfLargeFiles(
  endings: readonly string[],
  tell: (note: string) => unknown = vscode.window.showInformationMessage,
): vscode.Disposable {
  const isProgram = ({ path }: vscode.Uri) => endings.some((ending) => path.toLowerCase().endsWith(ending));
  const told = new Set<string>();
  const look = async () => {
    const input = vscode.window.tabGroups.activeTabGroup.activeTab?.input;
    if (!(input instanceof vscode.TabInputText) || !isProgram(input.uri)) return;
    const name = input.uri.toString();
    if (told.has(name) || !(await isTooLarge(input.uri))) return;
    told.add(name);
    tell(
      `${vscode.workspace.asRelativePath(input.uri)} is larger than VS Code shows to extensions (50 MB): it is not checked here. In a terminal: probewright check FILE.`,
    );
  };
  void look();
  return vscode.window.tabGroups.onDidChangeTabs(() => void look());
}

/** @returns false also where the file can't be looked at: then there is nothing to tell */
async function isTooLarge(uri: vscode.Uri): Promise<boolean> {
  if (vscode.workspace.textDocuments.some((document) => document.uri.toString() === uri.toString()))
    return false;
  try {
    return (await vscode.workspace.fs.stat(uri)).size > mostCharacters;
  } catch {
    return false;
  }
}
