import { randomBytes } from 'node:crypto';
import * as vscode from 'vscode';
import type { RehearsalView } from '../../server/protocol/requests.ts';
import { rehearsalPage } from './rehearsalPage.ts';

/** Shows rehearsals beside their programs; the next one of a program takes the place of the last. */
export class RehearsalPanels implements vscode.Disposable {
  readonly #panels = new Map<string, vscode.WebviewPanel>();

  dispose(): void {
    for (const panel of this.#panels.values()) panel.dispose();
  }

  show(view: RehearsalView, program: vscode.Uri, setup: string): void {
    const panel = this.#panels.get(program.toString()) ?? this.#open(program);
    const nonce = randomBytes(16).toString('base64url');
    panel.webview.html = rehearsalPage(view, { program: fileName(program), setup }, nonce);
    panel.reveal(undefined, true);
  }

  #open(program: vscode.Uri): vscode.WebviewPanel {
    const title = `Rehearsal: ${fileName(program)}`;
    const beside = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    const panel = vscode.window.createWebviewPanel('probewright.rehearsal', title, beside, {
      enableScripts: true,
      localResourceRoots: [],
      enableFindWidget: true,
    });
    this.#panels.set(program.toString(), panel);
    panel.onDidDispose(() => this.#panels.delete(program.toString()));
    panel.webview.onDidReceiveMessage(({ line }: { line: unknown }) => {
      if (typeof line === 'number') void openLine(program, line);
    });
    return panel;
  }
}

async function openLine(program: vscode.Uri, line: number): Promise<void> {
  const shown = vscode.window.visibleTextEditors.find(
    ({ document }) => document.uri.toString() === program.toString(),
  );
  const document = await vscode.workspace.openTextDocument(program);
  const { range } = document.lineAt(Math.min(line, document.lineCount - 1));
  await vscode.window.showTextDocument(document, {
    viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One,
    selection: range,
  });
}

export function fileName({ path }: vscode.Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}
