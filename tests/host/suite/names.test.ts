import assert from 'node:assert/strict';
import { setup, suite, suiteSetup, teardown, test } from 'mocha';
import * as vscode from 'vscode';
import { activateExtension, answered, closeEditors, eventually, findings, ruleOf } from './demoWorkspace.ts';

const part = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10 F50\no<rise> call\n#<_top> = #5063\nM2\n';
const rise = 'o<rise> sub\nG0 Z5\n#<_top> = 0\no<rise> endsub\n';

suite('names over several files', () => {
  suiteSetup(activateExtension);
  setup(() => Promise.all([write('called-part.ngc', part), write('rise.ngc', rise)]));
  teardown(async () => {
    await closeEditors();
    for (const name of ['called-part.ngc', 'rise.ngc', 'lift.ngc', 'ascend.ngc'])
      await vscode.workspace.fs.delete(address(name)).then(undefined, () => {});
  });

  test('a call leads into its file, and the file tells who calls it', async () => {
    const { document } = await show('called-part.ngc');
    const call = document.positionAt(part.indexOf('rise>'));
    const ask = <T>(command: string, ...rest: unknown[]) =>
      vscode.commands.executeCommand<T>(command, document.uri, ...rest);
    const places = await ask<(vscode.Location | vscode.LocationLink)[]>(
      'vscode.executeDefinitionProvider',
      call,
    );
    assert.deepEqual(
      places.map((place) => nameOf('uri' in place ? place.uri : place.targetUri)),
      ['rise.ngc'],
    );
    const [item] = await ask<vscode.CallHierarchyItem[]>('vscode.prepareCallHierarchy', call);
    assert.equal(item?.name, 'rise');
    const callers = await vscode.commands.executeCommand<vscode.CallHierarchyIncomingCall[]>(
      'vscode.provideIncomingCalls',
      item,
    );
    assert.deepEqual(
      callers.map(({ from }) => from.name),
      ['called-part.ngc'],
    );
    const called = await vscode.commands.executeCommand<vscode.CallHierarchyOutgoingCall[]>(
      'vscode.provideOutgoingCalls',
      callers[0]?.from,
    );
    assert.deepEqual(
      called.map(({ to }) => to.name),
      ['rise'],
    );
    const links = await ask<vscode.DocumentLink[]>('vscode.executeLinkProvider');
    assert.deepEqual(
      links.map(({ target }) => target && nameOf(target)),
      ['rise.ngc'],
    );
    const symbols = await vscode.commands.executeCommand<vscode.SymbolInformation[]>(
      'vscode.executeWorkspaceSymbolProvider',
      'rise',
    );
    assert.ok(symbols.some(({ name, location }) => name === 'rise' && nameOf(location.uri) === 'rise.ngc'));
  });

  test('a name is found wherever it stands, read and written apart, and named before it is renamed', async () => {
    const { document } = await show('called-part.ngc');
    const top = document.positionAt(part.indexOf('_top') + 1);
    const places = await answered<vscode.Location[]>('vscode.executeReferenceProvider', document.uri, top);
    assert.deepEqual(places.map(({ uri, range }) => `${nameOf(uri)} ${range.start.line}`).sort(), [
      'called-part.ngc 4',
      'rise.ngc 2',
    ]);
    const lit = await answered<vscode.DocumentHighlight[]>(
      'vscode.executeDocumentHighlights',
      document.uri,
      top,
    );
    assert.deepEqual(
      lit.map(({ kind }) => kind),
      [vscode.DocumentHighlightKind.Write],
    );
    const asked = await answered<{ placeholder: string }>('vscode.prepareRename', document.uri, top);
    assert.equal(asked.placeholder, '_top');
    const start = new vscode.Position(0, 0);
    await assert.rejects(
      async () => vscode.commands.executeCommand('vscode.prepareRename', document.uri, start),
      /Nothing here/,
    );
  });

  test('renaming a subroutine renames its file and its calls', async () => {
    const { document } = await show('called-part.ngc');
    const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
      'vscode.executeDocumentRenameProvider',
      document.uri,
      document.positionAt(part.indexOf('rise>')),
      'lift',
    );
    assert.ok(await vscode.workspace.applyEdit(edit));
    assert.equal(document.getText(), part.replace('rise', 'lift'));
    let saved = '';
    await eventually(
      async () => {
        await vscode.workspace.saveAll(false);
        saved = await read('lift.ngc');
        return saved === rise.replaceAll('rise', 'lift');
      },
      () => `the file is ${saved}`,
    );
    await assert.rejects(async () => read('rise.ngc'));
  });

  test('renaming a file renames the calls of open programs', async () => {
    const { document } = await show('called-part.ngc');
    // A link shows that the server has the program and has found what it calls.
    await eventually(
      async () => (await linksOf(document)).length > 0,
      () => 'the call leads nowhere',
    );
    const edit = new vscode.WorkspaceEdit();
    edit.renameFile(address('rise.ngc'), address('ascend.ngc'));
    assert.ok(await vscode.workspace.applyEdit(edit));
    await eventually(
      () => document.getText() === part.replace('rise', 'ascend'),
      () => `the program is ${document.getText()}`,
    );
  });

  test('an edit of the called file changes the findings of its caller', async () => {
    const { document } = await show('called-part.ngc');
    const called = await vscode.workspace.openTextDocument(address('rise.ngc'));
    const edit = new vscode.WorkspaceEdit();
    edit.replace(called.uri, called.lineAt(1).range, 'G0 Y50');
    assert.ok(await vscode.workspace.applyEdit(edit));
    const found = await findings(document, (all) => all.some((d) => ruleOf(d) === 'no-retract-after-trip'));
    assert.equal(found.find((d) => ruleOf(d) === 'no-retract-after-trip')?.range.start.line, 2);
    await vscode.window.showTextDocument(called);
    await vscode.commands.executeCommand('workbench.action.files.revert');
  });
});

async function linksOf({ uri }: vscode.TextDocument): Promise<vscode.DocumentLink[]> {
  return vscode.commands.executeCommand('vscode.executeLinkProvider', uri);
}

function address(name: string): vscode.Uri {
  const folder = vscode.workspace.workspaceFolders?.[0];
  if (!folder) throw new Error('The test workspace is not open.');
  return vscode.Uri.joinPath(folder.uri, name);
}

function nameOf({ path }: vscode.Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

function write(name: string, text: string): Thenable<void> {
  return vscode.workspace.fs.writeFile(address(name), new TextEncoder().encode(text));
}

async function read(name: string): Promise<string> {
  return new TextDecoder().decode(await vscode.workspace.fs.readFile(address(name)));
}

async function show(name: string): Promise<vscode.TextEditor> {
  return vscode.window.showTextDocument(await vscode.workspace.openTextDocument(address(name)));
}
