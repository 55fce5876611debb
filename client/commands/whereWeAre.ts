import * as vscode from 'vscode';
import { profileName } from './createProfile.ts';

/** What the nearest profile is looked for from. */
export function whereWeAre(): string {
  const open = vscode.window.activeTextEditor?.document.uri;
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  if (open && open.scheme !== 'untitled') return open.toString();
  return (
    folder ? vscode.Uri.joinPath(folder.uri, profileName) : vscode.Uri.parse('untitled:touches')
  ).toString();
}

/** The day where the machine stands. */
export function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
