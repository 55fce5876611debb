import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest';
import {
  type ClientCapabilities,
  type CodeAction,
  type Diagnostic,
  DiagnosticTag,
} from 'vscode-languageserver/node';
import { editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let client: TestClient;
const uri = pathToFileURL('/job/of/tests/part.ngc').href;
const textDocument = { uri };

beforeEach(async () => {
  client = await TestClient.start();
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
});

afterAll(removeBuiltServer);

const tagSupport = { valueSet: [DiagnosticTag.Unnecessary, DiagnosticTag.Deprecated] };
const { diagnostic, publishDiagnostics, ...others } = editorCapabilities.textDocument ?? {};
const tagging: ClientCapabilities = {
  textDocument: { ...others, diagnostic: { ...diagnostic, tagSupport } },
};

/** The 1.96 is half of an effective diameter near the current one, which the profile gives as 3.97. */
const lastYears =
  'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#<edge> = [#5061 + 1.96]\nG0 X-5\nG10 L2 P1 X[#5221 + #<edge>]\n';
const mended = '(probewright: allow syntax - long mended)\n';
const calibrated =
  '{ "probe": { "calibration": { "effectiveDiameter": 3.97, "expandedUncertainty": 0.002, "feed": 40 } } }';

const tagged = (found: readonly Diagnostic[]) =>
  found.flatMap(({ code, tags, range }) => (tags ? [[code, range.start.line, ...tags]] : []));
const expected = [
  ['effective-diameter-outdated', 3, DiagnosticTag.Deprecated],
  ['unused-suppression', 6, DiagnosticTag.Unnecessary],
];

test('text that does nothing and a number that held once come tagged, asked for or pushed', async () => {
  client.connection.onRequest('probewright/findUpwards', () => ({
    uri: 'file:///job/of/tests/probewright.json',
    text: calibrated,
  }));
  await client.initialize(tagging, { offersFiles: true });
  await client.open(uri, `${lastYears}${mended}M2\n`);
  expect(tagged(await client.pull(uri))).toEqual(expected);

  const pushing = await TestClient.start();
  pushing.connection.onRequest('probewright/findUpwards', () => ({ uri: 'file:///job/p', text: calibrated }));
  await pushing.initialize(
    { textDocument: { publishDiagnostics: { ...publishDiagnostics, tagSupport } } },
    { offersFiles: true },
  );
  await pushing.open(uri, `${lastYears}${mended}M2\n`);
  const push = await pushing.pushed(({ diagnostics }) => diagnostics.length > 0);
  expect(tagged(push.diagnostics)).toEqual(expected);
  expect(await pushing.stop()).toBe(0);
});

test('the code of a finding leads to the page of its rule, which the server writes', async () => {
  await client.initialize({ ...tagging, workspace: { textDocumentContent: {} } });
  await client.open(uri, `${mended}M2\n`);
  const [found] = await client.pull(uri);
  const href = found?.codeDescription?.href ?? '';
  const page = await client.request<{ text: string }>('workspace/textDocumentContent', { uri: href });
  expect(page.text).toContain('a suppression that silences nothing');
});

test('fix-all comes when it is asked for, and takes away what it mends in one edit', async () => {
  await client.initialize(tagging);
  await client.open(uri, `G21 G90 G94\n${mended}G0 Z5 ${mended}G38.2 Z-10\nG0 Z5\nM2\n`);
  const before = await client.pull(uri);
  expect(before.map(({ code }) => code)).toEqual([
    'unused-suppression',
    'unused-suppression',
    'probe-feed-unset',
  ]);
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  const ask = (only?: string[]) =>
    client.request<CodeAction[]>('textDocument/codeAction', {
      textDocument,
      range,
      context: { diagnostics: [], only },
    });
  expect(await ask()).toEqual([]);
  const [all, ...more] = await ask(['source.fixAll']);
  expect([all?.kind, more]).toEqual(['source.fixAll.probewright', []]);
  const edits = all?.edit?.changes?.[uri] ?? [];
  const backwards = edits.toSorted((a, b) => b.range.start.line - a.range.start.line);
  await client.change(
    uri,
    2,
    backwards.map((edit) => ({ range: edit.range, text: edit.newText })),
  );
  // A feed is motion: that stays for the person.
  expect((await client.pull(uri)).map(({ code }) => code)).toEqual(['probe-feed-unset']);
  expect(await ask(['source.fixAll'])).toEqual([]);
});
