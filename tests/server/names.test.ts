import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  ClientCapabilities,
  DocumentHighlight,
  DocumentLink,
  Location,
  SelectionRange,
  SymbolInformation,
  WorkspaceEdit,
} from 'vscode-languageserver/node';
import { editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const capabilities: ClientCapabilities = {
  ...editorCapabilities,
  workspace: {
    ...editorCapabilities.workspace,
    workspaceEdit: { documentChanges: true, resourceOperations: ['rename'] },
  },
};
const part = 'G21 G90\n#<_top> = 1\no<edge> call [2]\nG0 X#<_top>\nM2\n';
const edge = 'o<edge> sub\n#<_top> = 3\no<edge> endsub\n';

let folder: string;
let client: TestClient;
const uriOf = (name: string) => pathToFileURL(join(folder, name)).href;
const nameOf = (uri: string) => uri.slice(uri.lastIndexOf('/') + 1);

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'probewright-names-'));
  writeFileSync(join(folder, 'edge.ngc'), edge);
  client = await TestClient.start();
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

afterAll(removeBuiltServer);

const at = (line: number, character: number) => ({
  textDocument: { uri: uriOf('part.ngc') },
  position: { line, character },
});

test('names of a program and of the file that it calls, over the wire', async () => {
  const answer = await client.initialize(capabilities);
  expect(answer.capabilities).toMatchObject({
    renameProvider: { prepareProvider: true },
    workspace: { fileOperations: { willRename: { filters: [{ pattern: { matches: 'file' } }, {}] } } },
  });
  await client.open(uriOf('part.ngc'), part);

  const [sub] = await client.request<Location[]>('textDocument/definition', at(2, 4));
  expect([nameOf(sub?.uri ?? ''), sub?.range.start.line]).toEqual(['edge.ngc', 0]);
  const context = { includeDeclaration: true };
  const places = await client.request<Location[]>('textDocument/references', { ...at(1, 5), context });
  expect(places.map(({ uri, range }) => [nameOf(uri), range.start.line])).toEqual([
    ['part.ngc', 1],
    ['part.ngc', 3],
    ['edge.ngc', 1],
  ]);
  const lit = await client.request<DocumentHighlight[]>('textDocument/documentHighlight', at(3, 7));
  expect(lit.map(({ kind }) => kind)).toEqual([3, 2]);

  const [item] = await client.request<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', at(2, 3));
  const callers = await client.request<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item });
  expect(callers.map(({ from }) => from.name)).toEqual(['part.ngc']);
  expect(await client.request('callHierarchy/outgoingCalls', { item })).toEqual([]);

  const links = await client.request<DocumentLink[]>('textDocument/documentLink', at(0, 0));
  expect(links.map(({ target }) => nameOf(target ?? ''))).toEqual(['edge.ngc']);
  const symbols = await client.request<SymbolInformation[]>('workspace/symbol', { query: 'ed' });
  expect(symbols.map(({ name }) => name)).toEqual(['edge']);
  const [ranges] = await client.request<SelectionRange[]>('textDocument/selectionRange', {
    ...at(0, 0),
    positions: [{ line: 3, character: 7 }],
  });
  expect(ranges?.range).toEqual({ start: { line: 3, character: 6 }, end: { line: 3, character: 10 } });
});

test('renaming goes into the called file and takes it along, or says why not', async () => {
  await client.initialize(capabilities);
  await client.open(uriOf('part.ngc'), part);
  expect(await client.request('textDocument/prepareRename', at(2, 4))).toMatchObject({ placeholder: 'edge' });
  const edit = await client.request<WorkspaceEdit>('textDocument/rename', { ...at(2, 4), newName: 'rim' });
  expect(edit.documentChanges).toMatchObject([
    { kind: 'rename', oldUri: uriOf('edge.ngc'), newUri: uriOf('rim.ngc') },
    { textDocument: { uri: uriOf('part.ngc'), version: 1 }, edits: [{ newText: '<rim>' }] },
    {
      textDocument: { uri: uriOf('rim.ngc'), version: null },
      edits: [{ newText: '<rim>' }, { newText: '<rim>' }],
    },
  ]);
  await expect(client.request('textDocument/rename', { ...at(1, 4), newName: 'top' })).rejects.toThrow(
    /would be local/,
  );
  await expect(client.request('textDocument/prepareRename', at(0, 0))).rejects.toThrow(/Nothing here/);
  const files = [{ oldUri: uriOf('edge.ngc'), newUri: uriOf('rim.ngc') }];
  // What that edit does with the file is known; who renames it by hand afterwards is answered.
  expect(await client.request('workspace/willRenameFiles', { files })).toBeNull();
  const along = await client.request<WorkspaceEdit>('workspace/willRenameFiles', { files });
  expect(Object.keys(along.changes ?? {}).map(nameOf)).toEqual(['edge.ngc', 'part.ngc']);
});

test('positions outside the text, and files that are gone, are no fault', async () => {
  await client.initialize(capabilities);
  await client.open(uriOf('part.ngc'), part);
  rmSync(join(folder, 'edge.ngc'));
  const changes = [{ uri: uriOf('edge.ngc'), type: 3 }];
  await client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes });
  for (const [line, character] of [
    [2, 4],
    [99, 0],
    [4, 500],
    [0, 0],
  ] as const) {
    const context = { includeDeclaration: true };
    expect(await client.request('textDocument/definition', at(line, character))).toEqual([]);
    await client.request('textDocument/references', { ...at(line, character), context });
    await client.request('textDocument/documentHighlight', at(line, character));
    expect(await client.request('textDocument/prepareCallHierarchy', at(line, character))).toBeNull();
  }
  expect(await client.request('textDocument/documentLink', at(0, 0))).toEqual([]);
  expect(client.logged).toEqual([]);
});
