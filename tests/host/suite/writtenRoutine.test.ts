import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { activateExtension, closeEditors, eventually, openDemo } from './demoWorkspace.ts';
import { acceptAll } from './keyboard.ts';

suite('a written routine and its age', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('a new search feed is told over it, and one command brings it up to date', async () => {
    const program = await withRoutine();
    await changeSearchFeed();
    const lens = await ageLens(program);
    assert.match(lens.title, /the profile now gives other feeds.*Bring it up to date/);
    await vscode.commands.executeCommand(lens.command, ...(lens.arguments ?? []));
    assert.match(program.getText(), / F180\b/);
    assert.doesNotMatch(program.getText(), /search 200 mm\/min/);
    await vscode.commands.executeCommand('undo');
    assert.match(program.getText(), /search 200 mm\/min/);
  });

  test('what was changed by hand in it is shown beside what would be written', async () => {
    const program = await withRoutine();
    const line = program
      .getText()
      .split(/\r?\n/)
      .findIndex((text) => text.startsWith('M5 M9'));
    const change = new vscode.WorkspaceEdit();
    change.replace(program.uri, program.lineAt(line).range, 'M5');
    await vscode.workspace.applyEdit(change);
    await changeSearchFeed();
    const lens = await ageLens(program);
    assert.match(lens.title, /changed by hand.*Compare/);
    await vscode.commands.executeCommand(lens.command, ...(lens.arguments ?? []));
    const compared = () =>
      vscode.window.tabGroups.all.flatMap(({ tabs }) =>
        tabs.filter(({ input }) => input instanceof vscode.TabInputTextDiff),
      );
    await eventually(
      () => compared().length === 1,
      () => `${compared().length} comparisons are open`,
    );
    assert.equal(program.lineAt(line).text, 'M5');
  });
});

/** The demo's face program with a routine that was just written into it. */
async function withRoutine(): Promise<vscode.TextDocument> {
  const editor = await openDemo('top-face.ngc');
  const line = editor.document.getText().split(/\r?\n/).indexOf('M2') - 1;
  const at = editor.document.lineAt(line).range.end;
  editor.selection = new vscode.Selection(at, at);
  await acceptAll(vscode.commands.executeCommand('probewright.writeRoutine'));
  assert.match(editor.document.getText(), /written by Probewright/);
  return editor.document;
}

async function changeSearchFeed(): Promise<void> {
  const { document } = await openDemo('probewright.json');
  const said = '"search": 200';
  const from = document.getText().indexOf(said);
  const change = new vscode.WorkspaceEdit();
  const range = new vscode.Range(document.positionAt(from), document.positionAt(from + said.length));
  change.replace(document.uri, range, '"search": 180');
  await vscode.workspace.applyEdit(change);
}

async function ageLens({ uri }: vscode.TextDocument): Promise<vscode.Command> {
  await openDemo('top-face.ngc');
  let found: vscode.Command | undefined;
  await eventually(
    async () => {
      const lenses = await vscode.commands.executeCommand<vscode.CodeLens[]>(
        'vscode.executeCodeLensProvider',
        uri,
        50,
      );
      found = lenses
        .flatMap(({ command }) => command ?? [])
        .find(({ title }) => title.includes('profile now gives'));
      return found !== undefined;
    },
    () => 'no lens tells the age',
  );
  assert.ok(found);
  return found;
}
