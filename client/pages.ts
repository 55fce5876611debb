import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type EffectiveProfileParams,
  type ExplainRuleParams,
  effectiveProfile,
  explainRule,
  type Page,
} from '../server/protocol/requests.ts';

const scheme = 'probewright';

/** Pages that the server writes, shown as read-only Markdown: rules, and the profile that holds for a program. */
export class Pages implements vscode.TextDocumentContentProvider, vscode.Disposable {
  readonly #client: LanguageClient;
  readonly #changed = new vscode.EventEmitter<vscode.Uri>();
  readonly #registration: vscode.Disposable;
  readonly onDidChange = this.#changed.event;

  constructor(client: LanguageClient) {
    this.#client = client;
    this.#registration = vscode.workspace.registerTextDocumentContentProvider(scheme, this);
  }

  dispose(): void {
    this.#registration.dispose();
    this.#changed.dispose();
  }

  showRule(rule: string): Promise<void> {
    return this.#show(vscode.Uri.from({ scheme, path: `/rule/${rule}.md` }), vscode.ViewColumn.Beside);
  }

  showProfile(program: vscode.Uri): Promise<void> {
    const name = program.path.slice(program.path.lastIndexOf('/') + 1);
    const uri = vscode.Uri.from({ scheme, path: `/profile/${name}.md`, query: program.toString() });
    return this.#show(uri, vscode.ViewColumn.Active);
  }

  async provideTextDocumentContent(uri: vscode.Uri): Promise<string> {
    const page = uri.path.startsWith('/rule/') ? await this.#rule(uri) : await this.#profile(uri);
    return page?.markdown ?? 'There is no such page.';
  }

  #rule({ path }: vscode.Uri): Promise<Page | null> {
    const params: ExplainRuleParams = { rule: path.slice('/rule/'.length, -'.md'.length) };
    return this.#client.sendRequest<Page | null>(explainRule, params);
  }

  #profile({ query }: vscode.Uri): Promise<Page> {
    const params: EffectiveProfileParams = { uri: query };
    return this.#client.sendRequest<Page>(effectiveProfile, params);
  }

  async #show(uri: vscode.Uri, viewColumn: vscode.ViewColumn): Promise<void> {
    this.#changed.fire(uri);
    try {
      const beside = viewColumn === vscode.ViewColumn.Beside;
      await vscode.commands.executeCommand(
        beside ? 'markdown.showPreviewToSide' : 'markdown.showPreview',
        uri,
      );
    } catch {
      // The built-in Markdown extension is switched off: the text reads well enough as it is.
      await vscode.window.showTextDocument(uri, { viewColumn, preview: true });
    }
  }
}
