import type * as vscode from 'vscode';
import { startLanguageServer } from './languageServer.ts';

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  await startLanguageServer(context);
}
