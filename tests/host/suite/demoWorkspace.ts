import * as vscode from 'vscode';

export async function activateExtension(): Promise<void> {
  const extension = vscode.extensions.getExtension('probewright.probewright');
  if (!extension) throw new Error('The extension is not installed.');
  await extension.activate();
}

/** Opens a file of the demo workspace in an editor. */
export async function openDemo(name: string): Promise<vscode.TextEditor> {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (!folder) throw new Error('The test workspace is not open.');
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder.uri, name));
  return vscode.window.showTextDocument(document);
}

/** Opens a program that is in no file, as a person does with "New File". */
export async function openUntitled(content: string): Promise<vscode.TextEditor> {
  const open = () => vscode.workspace.openTextDocument({ language: 'gcode', content });
  let document = await open();
  // A busy VS Code gives the name, and with it the text, of one that is just being closed.
  await eventually(
    async () => {
      if (document.getText() === content) return true;
      document = await open();
      return document.getText() === content;
    },
    () => `a new program begins with ${JSON.stringify(document.getText())}`,
  );
  return vscode.window.showTextDocument(document);
}

/** Closes everything; what was not saved is given up. The name of an unsaved program is used again, so its findings go first. */
export async function closeEditors(): Promise<void> {
  for (const document of vscode.workspace.textDocuments.filter(({ isDirty }) => isDirty)) {
    await vscode.window.showTextDocument(document);
    await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
  }
  await vscode.commands.executeCommand('workbench.action.closeAllEditors');
  const left = () =>
    vscode.languages
      .getDiagnostics()
      .filter(([{ scheme }, found]) => scheme === 'untitled' && found.length > 0);
  await eventually(
    () => left().length === 0,
    () => `closed programs keep findings: ${left().map(([uri]) => uri.path)}`,
  );
}

/** Our findings on a document, once `enough` holds of them. Fails with what there was when that does not come. */
export async function findings(
  document: vscode.TextDocument,
  enough: (found: readonly vscode.Diagnostic[]) => boolean,
): Promise<readonly vscode.Diagnostic[]> {
  const now = () =>
    vscode.languages
      .getDiagnostics(document.uri)
      .filter(({ source }) => source?.toLowerCase() === 'probewright');
  await eventually(
    () => enough(now()),
    () =>
      `findings: ${
        now()
          .map((d) => `${d.range.start.line + 1}: ${ruleOf(d)}`)
          .join(', ') || 'none'
      }`,
  );
  return now();
}

/** The rule's id of a finding, with or without a link to its page. */
export function ruleOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === 'object' ? code.value : code);
}

/** Resolves when `holds` gives true; after 30 s fails with the words of `said`. */
export async function eventually(holds: () => boolean | Promise<boolean>, said: () => string): Promise<void> {
  const end = Date.now() + 30_000;
  while (!(await holds())) {
    if (Date.now() > end) throw new Error(`Not so after 30 s: ${said()}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** What a provider answers, once there is something. */
export async function answered<T extends object>(command: string, ...given: unknown[]): Promise<T> {
  let answer: T | undefined;
  await eventually(
    async () => {
      answer = await vscode.commands.executeCommand<T | undefined>(command, ...given);
      return answer !== undefined && answer !== null && (!Array.isArray(answer) || answer.length > 0);
    },
    () => `an answer to ${command}`,
  );
  return answer as T;
}
