import { randomBytes } from 'node:crypto';
import * as vscode from 'vscode';
import type { RehearsalView } from '../../server/protocol/requests.ts';
import { rehearsalPage } from './rehearsalPage.ts';

/** Shows rehearsals beside their programs; the next one of a program takes the place of the last. */
export class RehearsalPanels implements vscode.Disposable {
  readonly #panels = new Map<string, Shown>();
  readonly #edits = vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
    if (contentChanges.length > 0) this.#markEdited(document.uri);
  });

  dispose(): void {
    this.#edits.dispose();
    for (const { panel } of this.#panels.values()) panel.dispose();
  }

  show(view: RehearsalView, program: vscode.Uri, setup: vscode.Uri): void {
    const panel = this.#panels.get(program.toString())?.panel ?? this.#open(program);
    // The server's addresses may be written otherwise than the editor's.
    const others = view.restsOn.map((uri) => vscode.Uri.parse(uri).toString());
    const restsOn = [program.toString(), setup.toString(), ...others];
    this.#panels.set(program.toString(), { panel, restsOn, edited: '' });
    const nonce = randomBytes(16).toString('base64url');
    const names = { program: fileName(program), setup: fileName(setup) };
    panel.title = title(program);
    panel.webview.html = rehearsalPage(view, names, nonce);
    panel.reveal(undefined, true);
  }

  /** What a panel tells is of the texts as they were: the lines that it leads to may have moved. */
  #markEdited(uri: vscode.Uri): void {
    for (const [program, shown] of this.#panels) {
      if (shown.edited !== '' || !shown.restsOn.includes(uri.toString())) continue;
      shown.edited = `${fileName(uri)} was edited since: this is the rehearsal of the text before. Rehearse again.`;
      shown.panel.title = `${title(vscode.Uri.parse(program))} (edited since)`;
      void shown.panel.webview.postMessage({ edited: shown.edited });
    }
  }

  #open(program: vscode.Uri): vscode.WebviewPanel {
    const beside = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    const panel = vscode.window.createWebviewPanel('probewright.rehearsal', title(program), beside, {
      enableScripts: true,
      localResourceRoots: [],
      enableFindWidget: true,
    });
    panel.onDidDispose(() => this.#panels.delete(program.toString()));
    panel.webview.onDidReceiveMessage(({ line, file, ready }: Said) => {
      if (typeof line === 'number')
        void openLine(typeof file === 'string' ? vscode.Uri.parse(file) : program, line);
      // A page that was out of sight is built anew and has not heard of the edit.
      const edited = this.#panels.get(program.toString())?.edited;
      if (ready === true && edited) void panel.webview.postMessage({ edited });
    });
    return panel;
  }
}

/** What the page's script tells. */
interface Said {
  readonly line?: unknown;
  /** URI of a called file; absent: the program. */
  readonly file?: unknown;
  readonly ready?: unknown;
}

interface Shown {
  readonly panel: vscode.WebviewPanel;
  /** URIs of the texts that it is a rehearsal of. */
  readonly restsOn: readonly string[];
  /** What the page says of an edit since; '' where there was none. */
  edited: string;
}

function title(program: vscode.Uri): string {
  return `Rehearsal: ${fileName(program)}`;
}

async function openLine(uri: vscode.Uri, line: number): Promise<void> {
  const shown = vscode.window.visibleTextEditors.find(
    ({ document }) => document.uri.toString() === uri.toString(),
  );
  const document = await vscode.workspace.openTextDocument(uri);
  const { range } = document.lineAt(Math.min(line, document.lineCount - 1));
  await vscode.window.showTextDocument(document, {
    viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One,
    selection: range,
  });
}

export function fileName({ path }: vscode.Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}
