import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { activateExtension, closeEditors, eventually, findings, openDemo } from './demoWorkspace.ts';
import { click, hasKeyboard } from './keyboard.ts';

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
    await vscode.commands.executeCommand('probewright.rehearse');
    await becomes('Rehearsal: bore-centre.ngc');
    await editor.edit((edit) => edit.insert(new vscode.Position(3, 0), '(later)'));
    await becomes('Rehearsal: bore-centre.ngc (edited since)');
    await vscode.commands.executeCommand('probewright.rehearse');
    await becomes('Rehearsal: bore-centre.ngc');
  });

  test('a line of a called file opens there; an edit of that file, or of the profile, is told of', async () => {
    const files = {
      'calls-face.ngc': 'G21 G90 G94 G17 G40\no<face> call [-5]\nG0 Z20\nM2\n',
      'face.ngc': '(the face of a plate)\no<face> sub\nG38.2 Z#1 F40\no<face> endsub\nM2\n',
      'calls-face.setup.json':
        '{ "start": [0, 0, 10], "part": [{ "add": "block", "min": [-50, -50, -30], "max": [50, 50, 0] }] }\n',
    };
    try {
      for (const [name, text] of Object.entries(files))
        await vscode.workspace.fs.writeFile(inDemo(name), new TextEncoder().encode(text));
      await openDemo('calls-face.ngc');
      await rehearsedAnew();
      if (hasKeyboard) {
        click('line 3 of face.ngc');
        await eventually(
          () => vscode.window.activeTextEditor?.document.uri.path.endsWith('/face.ngc') === true,
          () => `active: ${vscode.window.activeTextEditor?.document.uri.path}`,
        );
        assert.equal(vscode.window.activeTextEditor?.selection.start.line, 2);
      }
      for (const restsOn of ['face.ngc', 'probewright.json', 'calls-face.setup.json']) {
        const editor = await openDemo(restsOn);
        await editor.edit((edit) => edit.insert(new vscode.Position(0, 0), ' '));
        await becomes('Rehearsal: calls-face.ngc (edited since)');
        await openDemo('calls-face.ngc');
        await rehearsedAnew();
      }
    } finally {
      await closeEditors();
      for (const name of Object.keys(files)) await vscode.workspace.fs.delete(inDemo(name));
    }
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

async function rehearsedAnew(): Promise<void> {
  await vscode.commands.executeCommand('probewright.rehearse');
  await becomes('Rehearsal: calls-face.ngc');
}

/** The label of the panel. */
function becomes(wanted: string): Promise<void> {
  const label = () => tabs().find(({ input }) => input instanceof vscode.TabInputWebview)?.label;
  return eventually(
    () => label() === wanted,
    () => `label: ${label()}`,
  );
}

function inDemo(name: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  assert.ok(folder);
  return vscode.Uri.joinPath(folder.uri, name);
}

function tabs(): vscode.Tab[] {
  return vscode.window.tabGroups.all.flatMap(({ tabs: all }) => all);
}
