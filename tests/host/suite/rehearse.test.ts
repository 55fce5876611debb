import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { activateExtension, closeEditors, eventually, findings, openDemo } from './demoWorkspace.ts';

suite('rehearsal', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('the demo bore is rehearsed in the setup beside it, in a panel beside it', async () => {
    await openDemo('bore-centre.ngc');
    await vscode.commands.executeCommand('probewright.rehearse');
    const panels = () => tabs().filter(({ input }) => input instanceof vscode.TabInputWebview);
    await eventually(
      () => panels().length === 1,
      () => `tabs: ${tabs().map(({ label }) => label)}`,
    );
    assert.equal(panels()[0]?.label, 'Rehearsal: bore-centre.ngc');
    // The next one takes its place.
    await vscode.commands.executeCommand('probewright.rehearse');
    assert.equal(panels().length, 1);
  });

  test('an edit of the program is told of at its panel, and the next rehearsal takes that back', async () => {
    const editor = await openDemo('bore-centre.ngc');
    const label = () => tabs().find(({ input }) => input instanceof vscode.TabInputWebview)?.label;
    const becomes = (wanted: string) =>
      eventually(
        () => label() === wanted,
        () => `label: ${label()}`,
      );
    await vscode.commands.executeCommand('probewright.rehearse');
    await becomes('Rehearsal: bore-centre.ngc');
    await editor.edit((edit) => edit.insert(new vscode.Position(3, 0), '(later)'));
    await becomes('Rehearsal: bore-centre.ngc (edited since)');
    await vscode.commands.executeCommand('probewright.rehearse');
    await becomes('Rehearsal: bore-centre.ngc');
  });

  test('a wrong key in a setup is pointed at', async () => {
    const editor = await openDemo('bore-centre.setup.json');
    const { document } = editor;
    const at = document.positionAt(document.getText().indexOf('"diameter": 62') + 1);
    await editor.edit((edit) => edit.insert(at, 'x'));
    const found = await findings(document, (all) => all.length > 0);
    assert.equal(found[0]?.range.start.line, at.line);
    assert.match(found[0]?.message ?? '', /xdiameter/);
  });
});

function tabs(): vscode.Tab[] {
  return vscode.window.tabGroups.all.flatMap(({ tabs: all }) => all);
}
