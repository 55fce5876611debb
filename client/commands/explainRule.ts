import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import { type ListRulesResult, listRules } from '../../server/protocol/requests.ts';
import type { Pages } from '../pages.ts';

/** Shows the page of a rule; from the command palette the person chooses one. */
export async function explainRule(client: LanguageClient, pages: Pages, rule?: string): Promise<void> {
  const chosen = rule ?? (await chooseRule(client));
  if (chosen !== undefined) await pages.showRule(chosen);
}

async function chooseRule(client: LanguageClient): Promise<string | undefined> {
  const rules = await client.sendRequest<ListRulesResult>(listRules);
  const here = rulesFoundHere();
  const items = rules
    .map(({ id, title }) => ({
      label: id,
      detail: title,
      ...(here.has(id) && { description: 'found in this file' }),
    }))
    .sort((a, b) => Number(here.has(b.label)) - Number(here.has(a.label)));
  const chosen = await vscode.window.showQuickPick(items, {
    title: 'Explain a rule',
    placeHolder: 'Which rule?',
    matchOnDetail: true,
  });
  return chosen?.label;
}

function rulesFoundHere(): ReadonlySet<string> {
  const uri = vscode.window.activeTextEditor?.document.uri;
  const found = uri ? vscode.languages.getDiagnostics(uri) : [];
  return new Set(found.map(({ code }) => String(typeof code === 'object' ? code.value : code)));
}
