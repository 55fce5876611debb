import assert from 'node:assert/strict';
import { suite, suiteSetup, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import { tellOfLargeFiles } from '../../../client/largeFiles.ts';
import { activateExtension, closeEditors, eventually, openDemo } from './demoWorkspace.ts';

/** One byte more than VS Code hands to extensions. */
const tooMany = 50 * 1024 * 1024 + 1;

suite('programs too large for the editor', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('each is said once not to be checked, and of other files nothing is said', async () => {
    const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert.ok(folder);
    const [large, text, larger] = ['large.ngc', 'large.txt', 'larger.ngc'].map((name) =>
      vscode.Uri.joinPath(folder, name),
    ) as [vscode.Uri, vscode.Uri, vscode.Uri];
    const said: string[] = [];
    const telling = tellOfLargeFiles(['.ngc'], (note) => said.push(note.replace(/ is larger .*/, '')));
    try {
      await vscode.workspace.fs.writeFile(large, manyLines(tooMany));
      for (const copy of [text, larger]) await vscode.workspace.fs.copy(large, copy);
      await show(large);
      await eventually(
        () => said.length > 0,
        () => 'a note',
      );
      await show(text);
      await openDemo('top-face.ngc');
      await show(large);
      await show(larger);
      await eventually(
        () => said.length > 1,
        () => `notes on ${said}`,
      );
      assert.deepEqual(said, ['large.ngc', 'larger.ngc']);
    } finally {
      telling.dispose();
      await closeEditors();
      for (const file of [large, text, larger]) await vscode.workspace.fs.delete(file);
    }
  });
});

async function show(file: vscode.Uri): Promise<void> {
  await vscode.commands.executeCommand('vscode.open', file);
  await eventually(
    () => {
      const input = vscode.window.tabGroups.activeTabGroup.activeTab?.input;
      return input instanceof vscode.TabInputText && input.uri.toString() === file.toString();
    },
    () => `${file.path} is shown`,
  );
}

function manyLines(bytes: number): Uint8Array {
  const text = new Uint8Array(bytes).fill(32);
  for (let end = 1023; end < bytes; end += 1024) text[end] = 10;
  return text;
}
