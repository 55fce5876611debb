import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest';
import type {
  ClientCapabilities,
  CodeLens,
  CompletionItem,
  Hover,
  InlayHint,
  Range,
  SemanticTokens,
  SemanticTokensDelta,
  SignatureHelp,
  TextEdit,
} from 'vscode-languageserver/node';
import { editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

let client: TestClient;
const uri = pathToFileURL('/job/of/tests/part.ngc').href;
const textDocument = { uri };
const at = (line: number, character: number) => ({ textDocument, position: { line, character } });
const whole: Range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

beforeEach(async () => {
  client = await TestClient.start();
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

afterAll(removeBuiltServer);

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

const grammar: ClientCapabilities = {
  ...editorCapabilities,
  textDocument: {
    ...editorCapabilities.textDocument,
    semanticTokens: {
      requests: {},
      tokenTypes: [],
      tokenModifiers: [],
      formats: [],
      augmentsSyntaxTokens: true,
    },
  },
};

test('tokens: full, delta and range', async () => {
  const { capabilities } = await client.initialize(grammar);
  expect(capabilities.semanticTokensProvider).toMatchObject({ full: { delta: true }, range: true });
  await client.open(uri, program);
  const full = await client.request<SemanticTokens>('textDocument/semanticTokens/full', { textDocument });
  expect(full.data.length).toBe(5 * 6);
  const part = await client.request<SemanticTokens>('textDocument/semanticTokens/range', {
    textDocument,
    range: { start: { line: 1, character: 0 }, end: { line: 1, character: 5 } },
  });
  expect(part.data).toHaveLength(10);
  await client.change(uri, 2, [{ range: { ...whole, end: whole.start }, text: '#1=1\n' }]);
  const delta = await client.request<SemanticTokensDelta>('textDocument/semanticTokens/full/delta', {
    textDocument,
    previousResultId: full.resultId,
  });
  const data = [...full.data];
  for (const { start, deleteCount, data: added = [] } of delta.edits)
    data.splice(start, deleteCount, ...added);
  const again = await client.request<SemanticTokens>('textDocument/semanticTokens/full', { textDocument });
  expect(data).toEqual(again.data);
});

test('a client without a grammar gets every word coloured', async () => {
  await client.initialize(editorCapabilities);
  await client.open(uri, 'G1 X1 (a)\n');
  const full = await client.request<SemanticTokens>('textDocument/semanticTokens/full', { textDocument });
  expect(full.data).toHaveLength(5 * 4);
});

test('hints and lenses, switched off by the setting, with a refresh', async () => {
  let notes = 'minimal';
  const refreshed: string[] = [];
  client.connection.onRequest('workspace/configuration', () => [{ notes }]);
  client.connection.onRequest('workspace/inlayHint/refresh', () => {
    refreshed.push('hints');
    return null;
  });
  client.connection.onRequest('workspace/codeLens/refresh', () => {
    refreshed.push('lenses');
    return null;
  });
  await client.initialize({
    ...editorCapabilities,
    workspace: {
      ...editorCapabilities.workspace,
      configuration: true,
      inlayHint: { refreshSupport: true },
      codeLens: { refreshSupport: true },
    },
  });
  await client.open(uri, program);
  const hints = await client.request<InlayHint[]>('textDocument/inlayHint', { textDocument, range: whole });
  expect(hints.map(({ label, position }) => [position.line, label])).toEqual([
    [1, 'G90'],
    [6, 'touched X'],
  ]);
  const told = await client.request<InlayHint>('inlayHint/resolve', hints[1] ?? {});
  expect(JSON.stringify(told.tooltip)).toContain('X of the last touch');
  const lenses = await client.request<CodeLens[]>('textDocument/codeLens', { textDocument });
  expect(lenses.map(({ range }) => range.start.line)).toEqual([0]);
  const resolved = await client.request<CodeLens>('codeLens/resolve', lenses[0] ?? {});
  expect(resolved.command?.title).toBe('1 touch');

  notes = 'off';
  await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
  expect(await client.request('textDocument/inlayHint', { textDocument, range: whole })).toEqual([]);
  expect(await client.request('textDocument/codeLens', { textDocument })).toEqual([]);
  expect(refreshed).toEqual(['hints', 'lenses']);

  await client.open(pathToFileURL('/job/of/tests/probewright.json').href, '{}', 'jsonc');
  await vi.waitFor(() => expect(refreshed).toHaveLength(4), 10_000);
});

test('a client that has no settings says it at the start, or by notice', async () => {
  await client.initialize(editorCapabilities, { notes: 'all' });
  await client.open(uri, program);
  const hints = () => client.request<InlayHint[]>('textDocument/inlayHint', { textDocument, range: whole });
  expect((await hints()).map(({ label }) => label)).toContain('reach:');
  const settings = { probewright: { notes: 'off' } };
  await client.connection.sendNotification('workspace/didChangeConfiguration', { settings });
  expect(await hints()).toEqual([]);
});

test('arguments, completion and hover at their places, nothing at bad ones', async () => {
  await client.initialize(editorCapabilities);
  await client.open(uri, `${program}o<in> call [`);
  const help = await client.request<SignatureHelp>('textDocument/signatureHelp', at(8, 12));
  expect(help.signatures[0]?.label).toBe('o<in> call [#1 reach]');
  const items = await client.request<CompletionItem[]>('textDocument/completion', at(8, 2));
  expect(items.map(({ label }) => label)).toContain('o<in> call');
  const hover = await client.request<Hover>('textDocument/hover', at(2, 7));
  expect(JSON.stringify(hover.contents)).toContain('endsub');
  for (const [line, character] of [
    [999, 0],
    [0, 9999],
    [8, 2_000_000_000],
  ] as const) {
    await client.request('textDocument/signatureHelp', at(line, character));
    await client.request('textDocument/completion', at(line, character));
    await client.request('textDocument/hover', at(line, character));
  }
  expect(client.logged).toEqual([]);
});

test('formatting: whole, a range, and while typing', async () => {
  await client.initialize(editorCapabilities);
  await client.open(uri, 'o1 if [1]\r\nG0   X1\r\n  o1 endif\r\nM2');
  const options = { tabSize: 2, insertSpaces: true };
  const ask = (method: string, more: object) =>
    client.request<TextEdit[]>(`textDocument/${method}`, { textDocument, options, ...more });
  expect(await ask('formatting', {})).toHaveLength(2);
  expect(
    await ask('rangeFormatting', {
      range: { start: { line: 3, character: 0 }, end: { line: 9, character: 9 } },
    }),
  ).toEqual([]);
  expect(await ask('onTypeFormatting', { position: { line: 2, character: 10 }, ch: 'f' })).toEqual([
    { range: { start: { line: 2, character: 0 }, end: { line: 2, character: 2 } }, newText: '' },
  ]);
  expect(await ask('onTypeFormatting', { position: { line: 99, character: 10 }, ch: '\n' })).toEqual([]);
});

test('a client that takes it is offered formatting of programs alone', async () => {
  const registered: { method: string; registerOptions?: { documentSelector?: unknown } }[] = [];
  client.connection.onRequest('client/registerCapability', ({ registrations }) => {
    registered.push(...registrations);
    return null;
  });
  const dynamic = { dynamicRegistration: true };
  const { capabilities } = await client.initialize({
    ...editorCapabilities,
    textDocument: {
      ...editorCapabilities.textDocument,
      formatting: dynamic,
      rangeFormatting: dynamic,
      onTypeFormatting: dynamic,
    },
  });
  expect(capabilities.documentFormattingProvider).toBeUndefined();
  await client.open(uri, 'G0  X1');
  await client.pull(uri);
  const offered = registered.filter(({ method }) => /ormatting$/.test(method));
  expect(offered.map(({ registerOptions }) => registerOptions?.documentSelector)).toEqual(
    Array.from({ length: 3 }, () => [{ language: 'gcode' }]),
  );
});

/** Line 1: `(😀é)` is 5 long in UTF-16, 8 in UTF-8, 4 in UTF-32. */
const wide = '\ufeffG21 G90 G94\r\n(😀é)\tG38.2 Z-10 F50\r\nG1 Z-12\r\nM2';

test.each([
  ['utf-8', 9],
  ['utf-16', 6],
  ['utf-32', 5],
] as const)('positions in %s: questions, answers, findings and edits', async (encoding, column) => {
  const { capabilities } = await client.initialize({
    ...editorCapabilities,
    general: { positionEncodings: [encoding] },
  });
  expect(capabilities.positionEncoding).toBe(encoding);
  await client.open(uri, wide);
  const [finding] = await client.pull(uri);
  expect(finding?.range.start).toEqual({ line: 1, character: column });
  const hover = await client.request<Hover>('textDocument/hover', at(1, column + 1));
  expect(hover.range?.start).toEqual({ line: 1, character: column });
  expect(JSON.stringify(hover.contents)).toContain('G38.2');

  // Two edits in one notice, the second of the text that the first leaves: "(😀é)" loses "é", then "Z-10" becomes "Z-9".
  const é = encoding === 'utf-8' ? 2 : 1;
  const before = column - 2 - é;
  const number = column - é + 'G38.2 Z-'.length;
  await client.change(uri, 2, [
    { range: { start: { line: 1, character: before }, end: { line: 1, character: before + é } }, text: '' },
    { range: { start: { line: 1, character: number }, end: { line: 1, character: number + 2 } }, text: '9' },
  ]);
  const options = { tabSize: 2, insertSpaces: true };
  await client.change(uri, 3, [
    {
      range: { start: { line: 1, character: column - é }, end: { line: 1, character: column - é } },
      text: '  ',
    },
  ]);
  const edits = await client.request<TextEdit[]>('textDocument/formatting', { textDocument, options });
  expect(edits).toEqual([]);
  const touch = await client.request<Hover>('textDocument/hover', at(1, column - é + 3));
  expect(touch.range?.start).toEqual({ line: 1, character: column - é + 2 });
  const tokens = await client.request<SemanticTokens>('textDocument/semanticTokens/range', {
    textDocument,
    range: { start: { line: 1, character: 0 }, end: { line: 1, character: 99 } },
  });
  expect(tokens.data.slice(6, 8)).toEqual([column - é + 2, 5]);
});

test('hover over a parameter shows the tree of the touches that it rests on, in both dialects', async () => {
  await client.initialize(editorCapabilities);
  const macro = 'G21 G90 G94\nG0 X0\nG31 X10. F60.\nIF[#5061GT9.9]GOTO9\n#1=#5061\n#2=#1+3.\nN9 M30';
  const programs = [
    [uri, 'G21 G90 G94\nG0 X0\nG38.2 X10 F60\n#1=#5061\nG0 X0\n#2=[#1+3]\nM2', 'G38.2 X\\+', 3, 4],
    [uri.replace('.ngc', '.nc'), macro, 'G31 X\\+', 3, 5],
  ] as const;
  for (const [address, text, touch, touched, kept] of programs) {
    await client.open(address, text);
    const hover = await client.request<Hover>('textDocument/hover', {
      textDocument: { uri: address },
      position: { line: 5, character: 1 },
    });
    const { value } = hover.contents as { value: string };
    expect(value).toMatch(/^\*\*#2: up to \d.* wrong\*\* — bias .* along the \+ axis/);
    const line = (number: number) => `\\[line ${number}\\]\\(.*#L${number}\\)`;
    const tree = `- \`#2=.*\`, ${line(6)}\n  - \`#1=#5061\`, ${line(kept)}\n    - ${touch}, ${line(touched)}: X latched`;
    expect(value).toMatch(new RegExp(tree));
  }
});
