import * as vscode from 'vscode';
import { profileName } from './commands/createProfile.ts';
import { findUpwards } from './files.ts';
import { language } from './languageServer.ts';

/** The language status of a program: which probe profile holds for it, with a way to see it or to make one. */
export function showProfileStatus(): vscode.Disposable {
  const status = vscode.languages.createLanguageStatusItem('probewright.profile', { language });
  status.name = 'Probe profile';
  const update = () => void describe(status, vscode.window.activeTextEditor?.document);
  const watcher = vscode.workspace.createFileSystemWatcher(`**/${profileName}`, false, true, false);
  update();
  return vscode.Disposable.from(
    status,
    watcher,
    watcher.onDidCreate(update),
    watcher.onDidDelete(update),
    vscode.window.onDidChangeActiveTextEditor(update),
  );
}

async function describe(
  status: vscode.LanguageStatusItem,
  document: vscode.TextDocument | undefined,
): Promise<void> {
  if (document?.languageId !== language) return;
  const profile = await findUpwards(document.uri, profileName);
  if (profile) {
    status.text = `Probe: ${vscode.workspace.asRelativePath(profile.uri)}`;
    status.command = { title: 'Show values', command: 'probewright.showEffectiveProfile' };
  } else {
    status.text = 'Probe: built-in values';
    status.command = { title: 'Create a profile', command: 'probewright.createProfile' };
  }
}
