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

suite('at a touch', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('the hover tells its error with this probe, with a picture', async () => {
    const { document } = await openDemo('corner-two-edges.ngc');
    const text = await hoverAt(document, 'G38.2 Y3 F50');
    assert.match(text, /µm/);
    assert.match(text, /±/);
    assert.match(text, /data:image\/svg\+xml;base64,/);
  });

  test('in an inch program the hover speaks in inches', async () => {
    const { document } = await openDemo('boss-inch.ngc');
    const text = await hoverAt(document, 'G38.2 X0.12 F1.97');
    assert.match(text, /\bin\b/);
    assert.doesNotMatch(text, /µm/);
  });

  test('a quick fix takes its finding away', async () => {
    const { document } = await openUntitled('G21 G90 G94\nG0 Z20\nG38.2 Z-10 F40\nG0 X50\nM2\n');
    const rule = 'no-retract-after-trip';
    const found = await findings(document, (all) => all.some((d) => ruleOf(d) === rule));
    const finding = found.find((d) => ruleOf(d) === rule);
    assert.ok(finding);
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      finding.range,
    );
    const titles = actions.map(({ title }) => title);
    assert.ok(titles.includes(`Explain this rule: ${rule}`), titles.join(' | '));
    assert.ok(titles.includes(`Allow ${rule} here, because…`), titles.join(' | '));
    const fix = actions.find(({ edit }) => edit);
    assert.ok(fix?.edit, titles.join(' | '));
    assert.ok(await vscode.workspace.applyEdit(fix.edit));
    await findings(document, (all) => all.every((d) => ruleOf(d) !== rule));
  });

  test('a completion is accepted', async () => {
    const editor = await openUntitled('G21 G90 G94\nG38');
    const end = editor.document.lineAt(1).range.end;
    editor.selection = new vscode.Selection(end, end);
    await eventually(
      async () => {
        await vscode.commands.executeCommand('editor.action.triggerSuggest');
        await new Promise((resolve) => setTimeout(resolve, 400));
        await vscode.commands.executeCommand('acceptSelectedSuggestion');
        return /^G38\.[2-5]/.test(editor.document.lineAt(1).text);
      },
      () => `the line is ${editor.document.lineAt(1).text}`,
    );
  });
});

/** The text of the hovers at the start of the first line that holds `block`, once there are some. */
async function hoverAt(document: vscode.TextDocument, block: string): Promise<string> {
  const place = document.positionAt(document.getText().indexOf(block) + 1);
  let text = '';
  await eventually(
    async () => {
      const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
        'vscode.executeHoverProvider',
        document.uri,
        place,
      );
      text = hovers
        .flatMap(({ contents }) => contents)
        .map((content) => (typeof content === 'string' ? content : content.value))
        .join('\n');
      return text !== '';
    },
    () => `a hover at ${block}`,
  );
  return text;
}
