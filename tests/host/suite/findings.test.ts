import assert from 'node:assert/strict';
import { suite, suiteSetup, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import {
  activateExtension,
  answered,
  closeEditors,
  findings,
  openDemo,
  openUntitled,
  ruleOf,
} from './demoWorkspace.ts';

const traversesFromTheTrip = ['G21 G90 G94', 'G38.2 Z-10 F100', 'G0 X50', 'M2', ''].join('\n');

/** The demo's probe has an effective diameter of 5.968 mm now; 2.95 is half of one that may have held before. */
const heldOnce = [
  'G21 G90 G94 G54',
  'G0 X0 Y0',
  'G38.2 X20 F50',
  '#<edge> = [#5061 + 2.95]',
  'G0 X-5',
  'G10 L2 P1 X[#5221 + #<edge>]',
  '(probewright: allow syntax - mended)',
  'M2',
  '',
].join('\n');

suite('findings in the editor', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('a rapid move from the trip position is reported at its touch', async () => {
    const { document } = await openUntitled(traversesFromTheTrip);
    const found = await findings(document, (all) => all.some((d) => ruleOf(d) === 'no-retract-after-trip'));
    const finding = found.find((d) => ruleOf(d) === 'no-retract-after-trip');
    assert.equal(finding?.range.start.line, 1);
    const [leaves] = finding?.relatedInformation ?? [];
    assert.equal(leaves?.location.uri.toString(), document.uri.toString());
    assert.equal(leaves?.location.range.start.line, 2);
  });

  test('characters outside ASCII before a fault do not shift it, nor an edit before it', async () => {
    const { document } = await openUntitled('(😀é)\tG777\nM2\n');
    const place = async (rule: string, line: number) => {
      const found = await findings(document, (all) =>
        all.some((d) => ruleOf(d) === rule && d.range.start.line === line),
      );
      return document.getText(found.find((d) => ruleOf(d) === rule)?.range);
    };
    assert.equal(await place('unknown-code', 0), 'G777');
    const edit = new vscode.WorkspaceEdit();
    edit.insert(document.uri, new vscode.Position(0, 0), '(é😀)\n(😀) ');
    assert.ok(await vscode.workspace.applyEdit(edit));
    assert.equal(await place('unknown-code', 1), 'G777');
  });

  test('of many findings the worst thousand are shown, and the last says how many more there are', async () => {
    const { document } = await openUntitled(
      `G21 G90 G94\n${'G777\n'.repeat(600)}${'G1 X1 X2 F100\n'.repeat(600)}M2\n`,
    );
    const found = await findings(document, (all) => all.length >= 1000);
    assert.equal(found.length, 1000);
    assert.equal(found.filter((d) => ruleOf(d) === 'repeated-word').length, 600);
    assert.ok(found.some(({ message }) => message.startsWith('201 more findings are not shown')));
  });

  test('a file in another language is said once to be so, and left alone', async () => {
    const { document } = await openUntitled(
      '0 BEGIN PGM BORE MM\n1 TOOL CALL 5 Z\n2 G1 X5 X6\n3 END PGM BORE MM\n',
    );
    const found = await findings(document, (all) => all.length > 0);
    assert.deepEqual(found.map(ruleOf), ['outside-dialects']);
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
      'vscode.executeHoverProvider',
      document.uri,
      new vscode.Position(2, 3),
    );
    assert.deepEqual(hovers, []);
  });

  test('a suppression that silences nothing fades, a number that held once is struck out', async () => {
    const { document } = await openDemo('top-face.ngc');
    const edit = new vscode.WorkspaceEdit();
    edit.replace(document.uri, new vscode.Range(0, 0, document.lineCount, 0), heldOnce);
    assert.ok(await vscode.workspace.applyEdit(edit));
    const wanted = new Map([
      ['unused-suppression', vscode.DiagnosticTag.Unnecessary],
      ['effective-diameter-outdated', vscode.DiagnosticTag.Deprecated],
    ]);
    const found = await findings(document, (all) =>
      [...wanted.keys()].every((rule) => all.some((d) => ruleOf(d) === rule)),
    );
    for (const finding of found) {
      const tag = wanted.get(ruleOf(finding));
      assert.deepEqual(finding.tags ?? [], tag === undefined ? [] : [tag], ruleOf(finding));
    }
  });

  test('Fix All mends what changes no motion, and leaves the rest', async () => {
    const { document } = await openUntitled(
      'G21 G90 G94\n(probewright: allow syntax - mended)\nG0 Z5 (probewright: allow syntax - mended)\nG38.2 Z-10\nG0 Z5\nM2\n',
    );
    const isUnused = (d: vscode.Diagnostic) => ruleOf(d) === 'unused-suppression';
    await findings(document, (all) => all.filter(isUnused).length === 2);
    const [all] = await answered<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      new vscode.Range(0, 0, 0, 0),
      vscode.CodeActionKind.SourceFixAll.value,
    );
    assert.equal(all?.kind?.value, 'source.fixAll.probewright');
    await vscode.commands.executeCommand('editor.action.fixAll');
    const left = await findings(document, (found) => !found.some(isUnused));
    assert.deepEqual(left.map(ruleOf), ['probe-feed-unset']);
    assert.match(document.getText(), /^G38\.2 Z-10$/m);
    assert.doesNotMatch(document.getText(), /allow/);
  });
});
