import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { type ShowProbeParams, showProbe } from '../server/protocol/calibration.ts';
import {
  type EffectiveProfileParams,
  type ExplainRuleParams,
  effectiveProfile,
  explainRule,
  type Page,
  type RoutinesPageParams,
  routinesPage,
} from '../server/protocol/requests.ts';

const scheme = 'probewright';

/** Pages that the server writes, shown as read-only Markdown: rules, and the profile that holds for a program. */
export class Pages implements vscode.TextDocumentContentProvider, vscode.Disposable {
  readonly #client: LanguageClient;
  readonly #changed = new vscode.EventEmitter<vscode.Uri>();
  readonly #registration: vscode.Disposable;
  readonly onDidChange = this.#changed.event;
  /** Pages that were made once, by their path. */
  readonly #made = new Map<string, Page>();

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

  /** What is known of the probe whose profile is the nearest to a file. */
  showProbe(near: string, day: string): Promise<void> {
    const uri = vscode.Uri.from({ scheme, path: '/probe/The probe.md', query: near, fragment: day });
    return this.#show(uri, vscode.ViewColumn.Active);
  }

  /** Every routine, for the probe whose profile is the nearest to a file. */
  showRoutines(near: string): Promise<void> {
    const uri = vscode.Uri.from({ scheme, path: '/routines/What can be probed.md', query: near });
    return this.#show(uri, vscode.ViewColumn.Active);
  }

  /** A page that is not asked for again. */
  showMade(page: Page): Promise<void> {
    const uri = vscode.Uri.from({ scheme, path: `/made/${page.title.replaceAll('/', ' ')}.md` });
    this.#made.set(uri.path, page);
    return this.#show(uri, vscode.ViewColumn.Beside);
  }

  /** Where a text can be read that was made once, as a program of this name. */
  madeText(name: string, text: string): vscode.Uri {
    const uri = vscode.Uri.from({ scheme, path: `/made/now/${name}` });
    this.#made.set(uri.path, { title: name, markdown: text });
    this.#changed.fire(uri);
    return uri;
  }

  async provideTextDocumentContent(uri: vscode.Uri): Promise<string> {
    return (await this.#page(uri))?.markdown ?? 'There is no such page.';
  }

  async #page(uri: vscode.Uri): Promise<Page | null> {
    if (uri.path.startsWith('/rule/')) return this.#rule(uri);
    if (uri.path.startsWith('/made/')) return this.#made.get(uri.path) ?? null;
    if (uri.path.startsWith('/routines/')) return this.#routines(uri);
    return uri.path.startsWith('/probe/') ? this.#probe(uri) : this.#profile(uri);
  }

  #probe({ query, fragment }: vscode.Uri): Promise<Page> {
    const params: ShowProbeParams = { uri: query, day: fragment };
    return this.#client.sendRequest<Page>(showProbe, params);
  }

  #routines({ query }: vscode.Uri): Promise<Page> {
    const params: RoutinesPageParams = { uri: query };
    return this.#client.sendRequest<Page>(routinesPage, params);
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
      // Beside the first column alone, or each page would open one more.
      const { viewColumn: active } = vscode.window.tabGroups.activeTabGroup;
      const beside = viewColumn === vscode.ViewColumn.Beside && active === vscode.ViewColumn.One;
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
