import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { activateExtension, closeEditors, eventually, openDemo } from './demoWorkspace.ts';

suite('calibration', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('the probe of the nearest profile has a page with its picture', async () => {
    await openDemo('bore-centre.ngc');
    await vscode.commands.executeCommand('probewright.showProbe');
    await eventually(
      () => labels().some((label) => label.includes('The probe')),
      () => `tabs: ${labels()}`,
    );
    const text = () =>
      vscode.workspace.textDocuments.find(({ uri }) => uri.path.endsWith('/The probe.md'))?.getText() ?? '';
    await eventually(() => /5\.968/.test(text()), text);
    assert.match(text(), /data:image\/svg\+xml/);
  });

  test('each command is there to be called', async () => {
    const all = await vscode.commands.getCommands(true);
    for (const name of ['calibrate', 'planCalibration', 'showProbe'])
      assert.ok(all.includes(`probewright.${name}`), name);
  });
});

function labels(): string[] {
  return vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs.map(({ label }) => label));
}
