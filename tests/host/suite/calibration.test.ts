import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import { activateExtension, closeEditors, eventually, openDemo } from './demoWorkspace.ts';
import { answerQuestions, hasKeyboard } from './keyboard.ts';

suite('calibration', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('the probe of the nearest profile has a page with its picture and its history', async () => {
    await openDemo('bore-centre.ngc');
    await vscode.commands.executeCommand('probewright.showProbe');
    const text = await pageText('The probe');
    assert.match(text, /5\.968/);
    assert.match(text, /Effective radius of the probe by direction of approach\]\(data:image\/svg\+xml/);
    assert.match(text, /Effective diameter of the probe over its calibrations\]\(data:image\/svg\+xml/);
    assert.match(text, /\| 2024-06-17 \|/);
  });

  test('each command is there to be called', async () => {
    const all = await vscode.commands.getCommands(true);
    for (const name of ['calibrate', 'planCalibration', 'verifyCalibration', 'showProbe', 'showErrors'])
      assert.ok(all.includes(`probewright.${name}`), name);
  });

  if (!hasKeyboard) return;

  test('touches become a calibration in the profile, which one undo takes back, and a line of the history', async () => {
    const { document: profile } = await openDemo('probewright.json');
    const { document: history } = await openDemo('calibrations.jsonl');
    const [before, earlier] = [profile.getText(), history.getText()];
    await openDemo('ring-touches.csv');
    const running = vscode.commands.executeCommand('probewright.calibrate');
    await answerQuestions(['', '50.001', '0.001']);
    assert.match(
      await pageText('Calibration from ring-touches.csv'),
      /\| diameter \| effective 5\.96\d\d mm/,
    );
    await eventually(
      async () => {
        await vscode.commands.executeCommand('notification.acceptPrimaryAction');
        return vscode.window.activeTextEditor?.document === profile;
      },
      () => `in front: ${vscode.window.activeTextEditor?.document.uri}`,
    );
    await running;
    assert.match(profile.getText(), /"touches": "ring-touches\.csv"/);
    assert.deepEqual(comments(profile.getText()), comments(before));
    assert.ok(profile.isDirty, 'what was there is not saved by itself');
    assert.ok(history.getText().startsWith(earlier));
    assert.match(
      history.getText().slice(earlier.length),
      /^\{"date":"\d{4}-\d\d-\d\d","effectiveDiameter":5\.96.*"ring-touches\.csv"\}\n$/,
    );
    await vscode.commands.executeCommand('undo');
    assert.equal(profile.getText(), before);
    assert.notEqual(history.getText(), earlier);
  });

  test('a few touches say whether the calibration holds', async () => {
    await openDemo('ring-check.csv');
    const running = vscode.commands.executeCommand('probewright.verifyCalibration');
    await answerQuestions(['', '50.001', '0.001']);
    await running;
    const text = await pageText('Verification by ring-check.csv');
    assert.match(text, /\| verdict \| the calibration holds as far as these touches see/);
  });

  test('a tolerance is asked for, and a page says whether it can be decided', async () => {
    await openDemo('bore-centre.ngc');
    const running = vscode.commands.executeCommand('probewright.showErrors');
    await answerQuestions(['0.01']);
    await running;
    const text = await pageText('Errors to expect of bore-centre.ngc');
    assert.match(text, /\| tolerance \| ±10\.0 µm: /);
    assert.match(text, /## Each touch/);
    assert.match(text, /Standard uncertainties as bars, as in the table\]\(data:image\/svg\+xml/);
  });

  test('without touches at hand the verification hands out a table to fill in', async () => {
    await openDemo('bore-centre.ngc');
    const running = vscode.commands.executeCommand('probewright.verifyCalibration');
    await answerQuestions(['A table']);
    await running;
    assert.match(
      vscode.window.activeTextEditor?.document.getText() ?? '',
      /direction,x,y,feed\n0,,,50\n180,,,50\n/,
    );
  });
});

/** The text of a page of ours, once it is open. */
async function pageText(title: string): Promise<string> {
  const page = () => vscode.workspace.textDocuments.find(({ uri }) => uri.path.endsWith(`/${title}.md`));
  const labels = () => vscode.window.tabGroups.all.flatMap(({ tabs }) => tabs.map(({ label }) => label));
  await eventually(
    () => labels().some((label) => label.includes(title)) && page() !== undefined,
    () => `tabs: ${labels()}`,
  );
  return page()?.getText() ?? '';
}

function comments(text: string): RegExpMatchArray | null {
  return text.match(/\/\/.*/g);
}
