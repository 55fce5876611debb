import assert from 'node:assert/strict';
import { suite, suiteSetup, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import { activateExtension, answered, closeEditors, eventually, openUntitled } from './demoWorkspace.ts';

const program = [
  'o<in> sub (#1 = reach)',
  '  G38.2 X#1 F50',
  'o<in> endsub',
  'G21 G90 G94 G54',
  'G0 X0',
  'o<in> call [5]',
  'G10 L2 P1 X[#5061 - 3]',
  'M2',
  '',
].join('\n');

suite('shown on the text', () => {
  suiteSetup(activateExtension);
  teardown(async () => {
    await setNotes(undefined);
    await closeEditors();
  });

  test('tokens tell parameters, routines and touches apart', async () => {
    const { document } = await openUntitled(program);
    const legend = await answered<vscode.SemanticTokensLegend>(
      'vscode.provideDocumentSemanticTokensLegend',
      document.uri,
    );
    assert.ok(legend.tokenTypes.includes('event'));
    const tokens = await answered<vscode.SemanticTokens>(
      'vscode.provideDocumentSemanticTokens',
      document.uri,
    );
    assert.equal(tokens.data.length, 5 * 6);
    const part = await answered<vscode.SemanticTokens>(
      'vscode.provideDocumentRangeSemanticTokens',
      document.uri,
      new vscode.Range(1, 0, 1, 5),
    );
    assert.equal(part.data.length, 5 * 2);
    assert.equal(part.data[0], 1);
  });

  test('hints and lenses stand where they matter, and one setting takes them away', async () => {
    const { document } = await openUntitled(program);
    const whole = new vscode.Range(0, 0, document.lineCount, 0);
    const hints = () =>
      vscode.commands.executeCommand<vscode.InlayHint[]>(
        'vscode.executeInlayHintProvider',
        document.uri,
        whole,
      );
    const lenses = () =>
      vscode.commands.executeCommand<vscode.CodeLens[]>('vscode.executeCodeLensProvider', document.uri, 9);
    const shown = async () => [
      ...(await hints()).map(({ label }) => String(label)),
      ...(await lenses()).map(({ command }) => command?.title ?? ''),
    ];
    let last: string[] = [];
    const become = (wanted: readonly string[]) =>
      eventually(
        async () => {
          last = await shown();
          return last.join() === wanted.join();
        },
        () => `shown: ${last.join(' | ')}`,
      );
    await become(['G90', 'touched X', '1 touch']);
    await setNotes('off');
    await become([]);
    await setNotes('all');
    await eventually(
      async () => (await shown()).includes('reach:'),
      () => 'the hint of an argument',
    );
  });

  test('a call shows what it takes, a keyword is matched to what is open', async () => {
    const { document } = await openUntitled(`${program}o<in> call [\no1 if [1]\no`);
    const help = await answered<vscode.SignatureHelp>(
      'vscode.executeSignatureHelpProvider',
      document.uri,
      new vscode.Position(8, 12),
      '[',
    );
    assert.equal(help.signatures[0]?.label, 'o<in> call [#1 reach]');
    const list = await answered<vscode.CompletionList>(
      'vscode.executeCompletionItemProvider',
      document.uri,
      new vscode.Position(10, 1),
    );
    const labels = list.items.map(({ label }) => (typeof label === 'string' ? label : label.label));
    assert.ok(labels.includes('o1 endif'), labels.join(', '));
    assert.ok(labels.includes('o<in> call'), labels.join(', '));
  });

  test('Format Document tidies a program', async () => {
    const { document } = await openUntitled('o1 if [1]\nG0   X1\n  o1 endif\nM2\n');
    const wanted = 'o1 if [1]\n  G0 X1\no1 endif\nM2\n';
    await eventually(
      async () => {
        await vscode.commands.executeCommand('editor.action.formatDocument');
        return document.getText() === wanted;
      },
      () => JSON.stringify(document.getText()),
    );
  });

  test('formatting of a selection, and of a line whose keyword was just typed', async () => {
    const { document } = await openUntitled('o1 if [1]\nG0   X1\n  o1 endif\nM2\n');
    const options: vscode.FormattingOptions = { tabSize: 2, insertSpaces: true };
    const selected = await answered<vscode.TextEdit[]>(
      'vscode.executeFormatRangeProvider',
      document.uri,
      new vscode.Range(1, 0, 1, 7),
      options,
    );
    assert.deepEqual(await applied(document, selected), 'o1 if [1]\n  G0 X1\n  o1 endif\nM2\n');
    const typed = await answered<vscode.TextEdit[]>(
      'vscode.executeFormatOnTypeProvider',
      document.uri,
      new vscode.Position(2, 10),
      'f',
      options,
    );
    assert.deepEqual(await applied(document, typed), 'o1 if [1]\n  G0 X1\no1 endif\nM2\n');
  });

  test('a hover says what a function is and comes to', async () => {
    const { document } = await openUntitled('#1=4\n#2=[SQRT[#1]]\nM2\n');
    const hovers = await answered<vscode.Hover[]>(
      'vscode.executeHoverProvider',
      document.uri,
      new vscode.Position(1, 5),
    );
    const text = hovers
      .flatMap(({ contents }) => contents)
      .map((each) => (typeof each === 'string' ? each : each.value));
    assert.match(text.join(), /square root[\s\S]*Here it is `2`/);
  });
});

async function applied(document: vscode.TextDocument, edits: vscode.TextEdit[]): Promise<string> {
  const edit = new vscode.WorkspaceEdit();
  edit.set(document.uri, edits);
  assert.ok(await vscode.workspace.applyEdit(edit));
  return document.getText();
}

function setNotes(level: string | undefined): Thenable<void> {
  return vscode.workspace
    .getConfiguration('probewright')
    .update('notes', level, vscode.ConfigurationTarget.Global);
}
