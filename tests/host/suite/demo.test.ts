import assert from 'node:assert/strict';
import { suite, suiteSetup, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import expected from '../../programs/demo.json';
import { activateExtension, closeEditors, findings, openDemo, ruleOf } from './demoWorkspace.ts';

interface Expected {
  readonly rule: string;
  readonly line: number;
}

suite('the demo programs', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  for (const [name, wanted] of Object.entries<readonly Expected[]>(expected)) {
    test(`${name}: ${wanted.map(({ rule }) => rule).join(', ') || 'quiet'}`, async () => {
      const { document } = await openDemo(name);
      const mark = await addFault(document);
      const found = await findings(document, (all) => all.some((d) => d.range.start.line === mark));
      const shown = found
        .filter((d) => d.range.start.line < mark && d.severity <= vscode.DiagnosticSeverity.Information)
        .map((d) => `${d.range.start.line + 1} ${ruleOf(d)}`);
      assert.deepEqual(shown.sort(), wanted.map(({ rule, line }) => `${line} ${rule}`).sort());
    });
  }

  test('a finding links to the page of its rule', async () => {
    const { document } = await openDemo('bore-quick.ngc');
    const found = await findings(document, (all) => all.length > 0);
    for (const { code } of found) {
      assert.ok(typeof code === 'object', 'no link');
      assert.equal(code.target.toString(true), `command:probewright.explainRule?["${code.value}"]`);
    }
  });
});

/** A block before the last line that must be reported tells when the findings of the whole program have come. */
async function addFault(document: vscode.TextDocument): Promise<number> {
  const line = document.getText().trimEnd().split('\n').length - 1;
  const edit = new vscode.WorkspaceEdit();
  edit.insert(document.uri, new vscode.Position(line, 0), 'G90 G91\n');
  assert.ok(await vscode.workspace.applyEdit(edit));
  return line;
}
