import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { ClientCapabilities, CompletionItem, Diagnostic, Hover } from 'vscode-languageserver/node';
import { mostDiagnostics } from '../../server/editor/diagnostics.ts';
import { editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let client: TestClient;
const uriOf = (name: string) => pathToFileURL(`/job/of/tests/${name}`).href;
const { diagnostic: _, ...withoutPull } = editorCapabilities.textDocument ?? {};
const pushOnly: ClientCapabilities = { ...editorCapabilities, textDocument: withoutPull };

beforeEach(async () => {
  client = await TestClient.start();
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

afterAll(removeBuiltServer);

const codes = (found: readonly Diagnostic[]) => found.map(({ code }) => code);
const furtherIn = 'G21 G90 G94\nG0 Z5\nG38.2 Z-10 F50\nG1 Z-12\nM2\n';

test('a client without names of languages: the name of the file decides, then what is in it', async () => {
  await client.initialize(pushOnly);
  for (const name of ['part.NGC', 'O0020', 'part.txt']) {
    await client.open(uriOf(name), furtherIn, '');
    const { diagnostics } = await client.pushed(({ uri }) => uri === uriOf(name));
    expect(codes(diagnostics)).toEqual(['no-retract-after-trip']);
  }
  await client.open(uriOf('notes.txt'), 'Clean the probe.\nThen call the shop about it.\n', '');
  const hover = { textDocument: { uri: uriOf('notes.txt') }, position: { line: 0, character: 1 } };
  expect(await client.request('textDocument/hover', hover)).toBeNull();
  expect(client.published.some(({ uri }) => uri === uriOf('notes.txt'))).toBe(false);
});

const conversational =
  '0 BEGIN PGM BORE MM\n1 TOOL CALL 5 Z\n2 L Z-10 R0 F50\n3 G1 X5 X6\n4 END PGM BORE MM\n';
const firmware = 'var reach = 5\nG30 P0\nif {sensors.probes[0].value[0] > 500}\n  G1   Z5\nG38.2 Z-5\n';

test.each([
  ['bore.nc', conversational],
  ['bed.g', firmware],
])('%s is in another language: said once, and left alone', async (name, text) => {
  const uri = uriOf(name);
  const textDocument = { uri };
  const position = { line: 3, character: 3 };
  const whole = { start: { line: 0, character: 0 }, end: { line: 4, character: 0 } };
  const options = { tabSize: 2, insertSpaces: true };
  await client.initialize(editorCapabilities);
  await client.open(uri, text);
  expect(codes(await client.pull(uri))).toEqual(['outside-dialects']);
  const ask = (method: string, more: object = {}) =>
    client.request<object | null>(`textDocument/${method}`, { textDocument, ...more });
  expect(await ask('hover', { position })).toBeNull();
  expect(await ask('completion', { position })).toBeNull();
  expect(await ask('documentSymbol')).toBeNull();
  expect(await ask('formatting', { options })).toEqual([]);
  expect(await ask('inlayHint', { range: whole })).toEqual([]);
  expect(await ask('semanticTokens/full')).toEqual({ data: [] });
  expect(
    await ask('codeAction', { range: { start: position, end: position }, context: { diagnostics: [] } }),
  ).toEqual([]);

  // Who says in the file that it is one of ours has it read all the same.
  await client.change(uri, 2, [
    { range: { ...whole, end: whole.start }, text: '(probewright: dialect rs274ngc)\n' },
  ]);
  expect(codes(await client.pull(uri))).toContain('syntax');
  const hover = await client.request<Hover>('textDocument/hover', {
    textDocument,
    position: { line: 4, character: 3 },
  });
  expect(JSON.stringify(hover.contents)).toContain('G1');
  const items = await client.request<CompletionItem[]>('textDocument/completion', {
    textDocument,
    position: { line: 6, character: 0 },
  });
  expect(items.length).toBeGreaterThan(0);
});

test('a thousand findings at most are published, asked for or pushed, and the last says how many more', async () => {
  // 600 errors behind 600 warnings.
  const text = `G21 G90 G94\n${'G777\n'.repeat(600)}${'G1 X1 X2 F100\n'.repeat(600)}M2\n`;
  const expectWorst = (found: readonly Diagnostic[]) => {
    expect(found).toHaveLength(mostDiagnostics);
    expect(mostDiagnostics).toBe(1000);
    expect(found.filter(({ code }) => code === 'repeated-word')).toHaveLength(600);
    expect(found.at(-1)?.message).toMatch(/^201 more findings are not shown/);
  };
  await client.initialize(editorCapabilities);
  await client.open(uriOf('part.ngc'), text);
  expectWorst(await client.pull(uriOf('part.ngc')));

  const pushing = await TestClient.start();
  await pushing.initialize(pushOnly);
  await pushing.open(uriOf('part.ngc'), text);
  expectWorst((await pushing.pushed(({ diagnostics }) => diagnostics.length > 0)).diagnostics);
  expect(await pushing.stop()).toBe(0);
});
