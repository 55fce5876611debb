import assert from 'node:assert/strict';
import { suite, suiteSetup, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import {
  activateExtension,
  closeEditors,
  eventually,
  findings,
  openDemo,
  openUntitled,
  ruleOf,
} from './demoWorkspace.ts';
import { acceptAll, hasKeyboard, press, type } from './keyboard.ts';

const bareTouch = 'G21 G90 G94\nG0 Z20\n  G38.2 Z-10 F40\nG0 X50\nM2\n';
const rule = 'no-retract-after-trip';

suite('commands', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  for (const [name, ending] of [
    ['top-face.ngc', 'M2'],
    ['casting-present.nc', 'M30'],
  ] as const) {
    test(`a routine is written into ${name}, and one undo takes it out`, async () => {
      const editor = await openDemo(name);
      const before = editor.document.getText();
      const line = before.split(/\r?\n/).indexOf(ending) - 1;
      const at = editor.document.lineAt(line).range.end;
      editor.selection = new vscode.Selection(at, at);
      await acceptAll(vscode.commands.executeCommand('probewright.writeRoutine'));
      const after = editor.document.getText();
      assert.ok(after.length > before.length + 300, 'nothing was inserted');
      assert.match(after.slice(0, at.line + 400), /G38\.|G31/);
      await vscode.commands.executeCommand('undo');
      assert.equal(editor.document.getText(), before);
    });
  }

  test('"allow here" asks for the reason and writes it into the program', async () => {
    const { document } = await openUntitled(bareTouch);
    await findings(document, (all) => all.some((d) => ruleOf(d) === rule));
    const given = [document.uri.toString(), 2, rule];
    const reason = 'the probe is a dummy (wood)';
    const asked = vscode.commands.executeCommand(
      'probewright.allowHere',
      ...given,
      ...(hasKeyboard ? [] : [reason]),
    );
    if (hasKeyboard) {
      type(reason);
      press('Enter');
    }
    await asked;
    assert.equal(document.lineAt(2).text, `  (probewright: allow ${rule} - the probe is a dummy [wood])`);
    await findings(document, (all) => all.every((d) => ruleOf(d) !== rule));
  });

  test('a profile is created with comments, and has no fault', async () => {
    const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
    assert.ok(folder);
    const file = vscode.Uri.joinPath(folder, 'probewright.json');
    const kept = await vscode.workspace.fs.readFile(file);
    try {
      await vscode.workspace.fs.delete(file);
      await vscode.commands.executeCommand('probewright.createProfile');
      const text = () => vscode.window.activeTextEditor?.document.getText() ?? '';
      assert.equal(vscode.window.activeTextEditor?.document.uri.toString(), file.toString());
      // One that was open before follows its file a moment later.
      await eventually(() => /"tipDiameter": 4/.test(text()), text);
      assert.match(text(), /\/\/ /);
      await new Promise((resolve) => setTimeout(resolve, 1000));
      assert.deepEqual(
        vscode.languages.getDiagnostics(file).map(({ message }) => message),
        [],
      );
    } finally {
      await closeEditors();
      await vscode.workspace.fs.writeFile(file, kept);
      const textNow = async () => (await vscode.workspace.openTextDocument(file)).getText();
      await eventually(
        async () => (await textNow()) === new TextDecoder().decode(kept),
        () => 'the profile is as it was',
      );
    }
  });

  test('a wrong key in a profile is pointed at', async () => {
    const editor = await openDemo('probewright.json');
    const { document } = editor;
    const before = document.getText();
    const at = document.positionAt(before.indexOf('"tipDiameter"') + 1);
    await editor.edit((edit) => edit.insert(at, 'x'));
    const found = await findings(document, (all) => all.length > 0);
    assert.equal(found[0]?.range.start.line, at.line);
    assert.match(found[0]?.message ?? '', /xtipDiameter/);
  });

  test('the page of a rule opens', async () => {
    await vscode.commands.executeCommand('probewright.explainRule', rule);
    await eventually(
      () => tabLabels().some((label) => label.includes(rule)),
      () => `tabs: ${tabLabels().join(', ')}`,
    );
  });

  test('the profile that holds for a program is shown', async () => {
    await openDemo('top-face.ngc');
    await vscode.commands.executeCommand('probewright.showEffectiveProfile');
    await eventually(
      () => tabLabels().filter((label) => label.includes('top-face.ngc')).length === 2,
      () => `tabs: ${tabLabels().join(', ')}`,
    );
  });

  test('the server is restarted and goes on finding', async () => {
    await vscode.commands.executeCommand('probewright.restartServer');
    const { document } = await openUntitled(bareTouch);
    await findings(document, (all) => all.some((d) => ruleOf(d) === rule));
  });
});

function tabLabels(): string[] {
  return vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs.map(({ label }) => label));
}
