import assert from 'node:assert/strict';
import { suite, suiteSetup, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import { activateExtension, answered, closeEditors, openUntitled } from './demoWorkspace.ts';

const program = [
  '(measures one edge)',
  '(from the left)',
  'o<edge> sub',
  '  G38.2 X[#1] F50',
  '  #<found> = [#5061 + 2]',
  '  G0 X0',
  'o<edge> endsub',
  'G21 G90 G94',
  'G0 X0 Y0 Z5',
  'o<edge> call [20]',
  'M2',
  '',
].join('\n');

suite('the structure of a program', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('the outline has the routine and the touch in it', async () => {
    const { document } = await openUntitled(program);
    const symbols = await answered<vscode.DocumentSymbol[]>(
      'vscode.executeDocumentSymbolProvider',
      document.uri,
    );
    assert.deepEqual(
      symbols.map(({ name, range }) => [name, range.start.line, range.end.line]),
      [['edge', 2, 6]],
    );
    assert.ok(symbols[0]?.children.some(({ name, range }) => name === 'Touch X+' && range.start.line === 3));
  });

  test('comments and routines fold', async () => {
    const { document } = await openUntitled(program);
    const folds = await answered<vscode.FoldingRange[]>('vscode.executeFoldingRangeProvider', document.uri);
    assert.deepEqual(
      folds.map(({ start, end, kind }) => [start, end, kind]),
      [
        [0, 1, vscode.FoldingRangeKind.Comment],
        [2, 6, undefined],
      ],
    );
  });

  test('a selection grows from the name to the expression and the block', async () => {
    const { document } = await openUntitled(program);
    const [smallest] = await answered<vscode.SelectionRange[]>(
      'vscode.executeSelectionRangeProvider',
      document.uri,
      [new vscode.Position(4, 6)],
    );
    const texts: string[] = [];
    for (let each = smallest; each; each = each.parent) texts.push(document.getText(each.range));
    assert.equal(texts[0], 'found');
    assert.ok(texts.includes('#<found> = [#5061 + 2]'), texts.join(' | '));
    assert.ok(texts.indexOf('#<found> = [#5061 + 2]') < texts.length - 1, texts.join(' | '));
  });

  test('a completion that is looked at gets its page', async () => {
    const { document } = await openUntitled(`${program}G38.`);
    const list = await answered<vscode.CompletionList>(
      'vscode.executeCompletionItemProvider',
      document.uri,
      new vscode.Position(11, 4),
      undefined,
      100,
    );
    const touch = list.items.find(
      ({ label }) => (typeof label === 'string' ? label : label.label) === 'G38.3',
    );
    const page = touch?.documentation;
    assert.ok(page instanceof vscode.MarkdownString, `documentation: ${page}`);
    assert.match(page.value, /prob/i);
  });
});
