import { fork } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest';
import type {
  ClientCapabilities,
  CodeAction,
  CompletionItem,
  DocumentSymbol,
  FoldingRange,
  Hover,
  Location,
  MarkupContent,
} from 'vscode-languageserver/node';
import {
  CancellationTokenSource,
  createProtocolConnection,
  IPCMessageReader,
  IPCMessageWriter,
  LSPErrorCodes,
} from 'vscode-languageserver/node';
import type {
  DescribeRoutinesResult,
  GenerateRoutineResult,
  ShowErrorsResult,
} from '../../server/protocol/requests.ts';
import { builtServer, editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

/** A touch that goes further in after its trip. */
const furtherIn = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10 F50\nG1 Z-12\nM2\n';
const retracted = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10 F50\nG0 Z5\nM2\n';

let folder: string;
let client: TestClient;
const uriOf = (name: string) => pathToFileURL(join(folder, name)).href;
const { diagnostic: _, ...withoutPull } = editorCapabilities.textDocument ?? {};
const pushOnly: ClientCapabilities = { ...editorCapabilities, textDocument: withoutPull };

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'probewright-job-'));
  client = await TestClient.start();
});

afterEach(async () => {
  const status = client.process.exitCode ?? (await client.stop());
  rmSync(folder, { recursive: true, force: true });
  expect(status).toBe(0);
});

afterAll(removeBuiltServer);

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

test('a client that asks gets findings, again after an edit, and none that are older', async () => {
  const { capabilities, serverInfo } = await client.initialize(editorCapabilities);
  expect(serverInfo?.name).toBe('Probewright');
  expect(capabilities.textDocumentSync).toMatchObject({ openClose: true, change: 2 });
  const uri = uriOf('part.ngc');
  await client.open(uri, furtherIn);
  const found = await client.pull(uri);
  expect(found.map(({ code, range }) => [code, range.start.line])).toEqual([['no-retract-after-trip', 2]]);
  expect(found[0]?.relatedInformation?.[0]?.location.range.start.line).toBe(3);

  const range = { start: { line: 3, character: 0 }, end: { line: 3, character: 7 } };
  await client.change(uri, 2, [{ range, text: 'G0 Z5' }]);
  expect(await client.pull(uri)).toEqual([]);
  expect(client.published).toEqual([]);
});

test('an unchanged program is answered as unchanged', async () => {
  await client.initialize(editorCapabilities);
  const textDocument = { uri: uriOf('part.ngc') };
  await client.open(textDocument.uri, furtherIn);
  const first = await client.request<{ resultId: string }>('textDocument/diagnostic', { textDocument });
  const again = { textDocument, previousResultId: first.resultId };
  expect(await client.request('textDocument/diagnostic', again)).toMatchObject({ kind: 'unchanged' });
});

test('a client that does not ask gets findings pushed with their version, and cleared on close', async () => {
  const { capabilities } = await client.initialize(pushOnly);
  expect(capabilities.diagnosticProvider).toBeUndefined();
  const uri = uriOf('part.ngc');
  await client.open(uri, furtherIn);
  const first = await client.pushed((push) => push.uri === uri && push.version === 1);
  expect(first.diagnostics.map(({ code }) => code)).toEqual(['no-retract-after-trip']);
  await client.change(uri, 2, [{ text: retracted }]);
  expect((await client.pushed((push) => push.version === 2)).diagnostics).toEqual([]);
  await client.change(uri, 3, [{ text: furtherIn }]);
  await client.pushed((push) => push.version === 3);
  client.published.length = 0;
  await client.close(uri);
  expect((await client.pushed((push) => push.uri === uri)).diagnostics).toEqual([]);
});

test('a burst of edits gives the findings of the last one', async () => {
  await client.initialize(pushOnly);
  const uri = uriOf('part.ngc');
  await client.open(uri, retracted);
  const insert = { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } };
  for (let version = 2; version < 60; version++)
    await client.change(uri, version, [{ ...insert, text: '\n' }]);
  await client.change(uri, 60, [{ text: furtherIn }]);
  const last = await client.pushed(({ version }) => version === 60);
  expect(last.diagnostics).toHaveLength(1);
  expect(client.published.length).toBeLessThan(30);
});

test('hover, symbols, folds, definition, references and completion of one program', async () => {
  await client.initialize(editorCapabilities);
  const uri = uriOf('edge.ngc');
  const text = [
    'o<edge> sub',
    '  G38.2 X[#1] F50 (look for it)',
    '  #<found> = [#5061 + 2]',
    '  G10 L20 P1 X[#<found>]',
    '  G0 X0',
    'o<edge> endsub',
    'G21 G90 G94',
    'G0 X0 Y0 Z5',
    'o<edge> call [20]',
    'M2',
  ].join('\n');
  await client.open(uri, text);
  const textDocument = { uri };
  const at = (line: number, character: number) => ({ textDocument, position: { line, character } });

  const hover = await client.request<Hover>('textDocument/hover', at(1, 4));
  expect((hover.contents as MarkupContent).value).toMatch(/^\*\*G38\.2 X\+: up to \d+\.\d µm wrong\*\*/);

  const symbols = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument });
  expect(symbols.map(({ name }) => name)).toEqual(['edge']);
  expect(symbols[0]?.children?.map(({ name }) => name)).toContain('Touch X+');

  const folds = await client.request<FoldingRange[]>('textDocument/foldingRange', { textDocument });
  expect(folds).toContainEqual({ startLine: 0, endLine: 5 });

  const [sub] = await client.request<Location[]>('textDocument/definition', at(8, 3));
  expect(sub?.range.start.line).toBe(0);
  const context = { includeDeclaration: true };
  const places = await client.request<Location[]>('textDocument/references', { ...at(3, 18), context });
  expect(places.map(({ range }) => range.start.line)).toEqual([2, 3]);

  await client.change(uri, 2, [
    { range: { start: { line: 9, character: 2 }, end: { line: 9, character: 2 } }, text: '\nG38.' },
  ]);
  const items = await client.request<CompletionItem[]>('textDocument/completion', at(10, 4));
  const touch = items.find(({ label }) => label === 'G38.3');
  expect(touch?.textEdit).toMatchObject({ newText: 'G38.3', range: { start: { line: 10, character: 0 } } });
  const resolved = await client.request<CompletionItem>('completionItem/resolve', touch ?? {});
  expect((resolved.documentation as MarkupContent).value.length).toBeGreaterThan(10);
});

test('a fix from a code action mends its finding', async () => {
  await client.initialize(editorCapabilities);
  const uri = uriOf('part.ngc');
  await client.open(uri, 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10\nG0 Z5\nM2\n');
  const diagnostics = await client.pull(uri);
  expect(diagnostics.map(({ code }) => code)).toEqual(['probe-feed-unset']);
  const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: diagnostics[0]?.range,
    context: { diagnostics },
  });
  const fix = actions.find(({ edit, title }) => edit && !title.startsWith('Allow'));
  expect(fix?.diagnostics).toEqual(diagnostics);
  const edits = fix?.edit?.changes?.[uri] ?? [];
  await client.change(
    uri,
    2,
    edits.map(({ range, newText }) => ({ range, text: newText })),
  );
  expect((await client.pull(uri)).map(({ code }) => code)).not.toContain('probe-feed-unset');
});

test('a profile that appears, breaks, is mended in the editor and goes away is followed', async () => {
  await client.initialize(editorCapabilities);
  const uri = uriOf('part.ngc');
  const profile = join(folder, 'probewright.json');
  const watched = () =>
    client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: uriOf('probewright.json'), type: 2 }],
    });
  await client.open(uri, furtherIn);
  expect(await client.pull(uri)).toHaveLength(1);

  writeFileSync(profile, '{ "rules": { "no-retract-after-trip": "off" } }');
  await watched();
  expect(await client.pull(uri)).toEqual([]);
  expect(client.refreshes).toBe(1);

  writeFileSync(profile, '{\n  "probe": { "tipDiametre": 4 }\n}');
  await watched();
  const [note] = await client.pull(uri);
  expect(note?.message).toContain('tipDiametre');
  expect(note?.message).toContain('built-in values');
  const inFile = await client.pushed(
    (push) => push.uri === uriOf('probewright.json') && push.diagnostics.length > 0,
  );
  expect(inFile.diagnostics[0]?.range.start).toEqual({ line: 1, character: 13 });

  client.published.length = 0;
  await client.open(uriOf('probewright.json'), '{ "rules": { "no-retract-after-trip": "off" } }', 'jsonc');
  expect((await client.pushed((push) => push.uri === uriOf('probewright.json'))).diagnostics).toEqual([]);
  expect(await client.pull(uri)).toEqual([]);

  await client.close(uriOf('probewright.json'));
  rmSync(profile);
  await watched();
  expect(await client.pull(uri)).toHaveLength(1);
});

test('files are asked of a client that offers them', async () => {
  const asked: string[] = [];
  client.connection.onRequest('probewright/findUpwards', ({ uri }: { uri: string }) => {
    asked.push(uri);
    return {
      uri: 'virtual://job/probewright.json',
      text: '{ "rules": { "no-retract-after-trip": "info" } }',
    };
  });
  await client.initialize(editorCapabilities, { offersFiles: true });
  await client.open('virtual://job/part.ngc', furtherIn);
  const [found] = await client.pull('virtual://job/part.ngc');
  expect(found?.severity).toBe(3);
  expect(asked).toEqual(['virtual://job/part.ngc']);
});

test('our own requests: rules, pages, profile, allowance', async () => {
  await client.initialize(editorCapabilities, {
    commands: ['probewright.explainRule', 'probewright.allowHere'],
    ruleLink: 'command:probewright.explainRule?%5B%22{rule}%22%5D',
  });
  const uri = uriOf('part.ngc');
  await client.open(uri, `  ${furtherIn}`);
  const [found] = await client.pull(uri);
  expect(found?.codeDescription?.href).toBe(
    'command:probewright.explainRule?%5B%22no-retract-after-trip%22%5D',
  );
  const rules = await client.request<{ id: string }[]>('probewright/listRules', {});
  expect(rules.map(({ id }) => id)).toContain('no-retract-after-trip');
  const page = await client.request<{ markdown: string }>('probewright/explainRule', {
    rule: 'no-retract-after-trip',
  });
  expect(page.markdown).toContain('no-retract-after-trip');
  expect(await client.request('probewright/explainRule', { rule: 'nothing' })).toBeNull();
  const effective = await client.request<{ markdown: string }>('probewright/effectiveProfile', { uri });
  expect(effective.markdown).toContain('| `tipDiameter` | 4 mm | built in |');
  const template = await client.request<{ text: string }>('probewright/profileTemplate', {});
  expect(template.text).toContain('// "tipDiameter": 4,');
  const allowed = await client.request<{ edits: object[] }>('probewright/allowHere', {
    uri,
    line: 0,
    rule: 'mode-assumed',
    reason: 'the control (ours)\nstarts so',
  });
  expect(allowed.edits).toEqual([
    {
      range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
      newText: '  (probewright: allow mode-assumed - the control [ours] starts so)\n',
    },
  ]);
});

test('the errors to expect of an open program, and whether a tolerance can be decided', async () => {
  await client.initialize(editorCapabilities);
  const uri = uriOf('measure.ngc');
  await client.open(uri, 'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F60\n#<edge> = [#5061 + 2]\nG0 X0\nM2\n');
  const asked = (tolerance: string | null) =>
    client.request<ShowErrorsResult>('probewright/showErrors', { uri, tolerance });
  const shown = await asked('0.05');
  expect(shown).toMatchObject({ kind: 'shown', page: { title: 'Errors to expect of measure.ngc' } });
  expect(JSON.stringify(shown)).toContain('| tolerance | ±50.0 µm: ');
  expect(await asked(null)).toMatchObject({ kind: 'shown' });
  expect(await asked('wide')).toMatchObject({ kind: 'refused' });
  const closed = { uri: uriOf('closed.ngc'), tolerance: null };
  expect(await client.request('probewright/showErrors', closed)).toMatchObject({ kind: 'refused' });
});

test('a routine is described, written with the error to expect, and offered as a completion', async () => {
  await client.initialize(editorCapabilities);
  const uri = uriOf('new.ngc');
  await client.open(uri, 'G20 G90 G94\n#<_hole> = 1\nprobe b\nM2\n');
  const place = { uri, position: { line: 2, character: 7 } };
  const described = await client.request<DescribeRoutinesResult>('probewright/describeRoutines', place);
  expect(described).toMatchObject({ dialect: 'rs274ngc', units: 'inch', profile: null });
  const bore = described.routines.find(({ name }) => name === 'bore');
  expect(bore?.inputs.find(({ name }) => name === 'diameter')?.unit).toBe('in');

  const params = { ...place, routine: 'bore', form: 'inline', values: { diameter: 1.5 } };
  const written = await client.request<GenerateRoutineResult>('probewright/generateRoutine', params);
  expect(written.problems).toEqual([]);
  expect(written.text).toContain('G38.3');
  expect(written.expectedErrors[0]?.text).toMatch(
    /^±0\.\d+ in, bias [−+]?0\.\d+ in, predicted, not calibrated$/,
  );
  const small = { ...params, values: { diameter: 0.01 } };
  const refused = await client.request<GenerateRoutineResult>('probewright/generateRoutine', small);
  expect(refused.text).toBeNull();
  expect(refused.problems[0]?.inputs).toContain('diameter');

  const items = await client.request<CompletionItem[]>('textDocument/completion', {
    textDocument: { uri },
    position: place.position,
  });
  const item = items.find(({ label }) => label === 'probe bore');
  const range = { start: { line: 2, character: 0 }, end: { line: 2, character: 7 } };
  expect(item?.textEdit).toMatchObject({ range });
  await client.change(uri, 2, [{ range, text: item?.textEdit?.newText ?? '' }]);
  expect(await client.pull(uri)).toEqual([]);
});

test('a client without our commands is shown the page of a rule', async () => {
  const { capabilities } = await client.initialize(editorCapabilities);
  expect(capabilities.executeCommandProvider?.commands).toEqual(['probewright.explainRule']);
  await client.request('workspace/executeCommand', {
    command: 'probewright.explainRule',
    arguments: ['syntax'],
  });
  expect(client.shown[0]).toContain('syntax');
});

test('requests that nobody knows, broken ones and given-up ones leave the server answering', async () => {
  await client.initialize(editorCapabilities);
  const uri = uriOf('part.ngc');
  await client.open(uri, furtherIn);
  await expect(client.request('textDocument/nothingOfTheKind', {})).rejects.toMatchObject({ code: -32601 });
  await expect(
    client.request('textDocument/hover', { position: { line: 0, character: 0 } }),
  ).rejects.toMatchObject({
    code: -32803,
  });
  expect(client.logged.join('\n')).toContain('hover failed');
  await client.connection.sendNotification('textDocument/didChange', {
    textDocument: { uri: 'file:///not/open' },
  });
  await client.connection.sendNotification('probewright/unheardOf', {});
  client.process.stdin?.write('Content-Length: 9\r\n\r\n{"broken"');
  expect(
    await client.request('textDocument/hover', {
      textDocument: { uri },
      position: { line: 99, character: 9 },
    }),
  ).toBeNull();
  expect(await client.pull(uri)).toHaveLength(1);
});

test('a request that is given up is answered as such, and the next one as ever', async () => {
  await client.initialize(editorCapabilities);
  const uri = uriOf('part.ngc');
  await client.open(uri, furtherIn);
  const source = new CancellationTokenSource();
  const params = { textDocument: { uri } };
  const pulled = client.connection.sendRequest('textDocument/diagnostic', params, source.token);
  source.cancel();
  await expect(pulled).rejects.toMatchObject({ code: LSPErrorCodes.RequestCancelled });
  expect(await client.pull(uri)).toHaveLength(1);
});

test('the server speaks over the channel of a parent process too', async () => {
  const child = fork(await builtServer(), ['--node-ipc']);
  const ended = new Promise((settle) => child.once('exit', settle));
  const connection = createProtocolConnection(new IPCMessageReader(child), new IPCMessageWriter(child));
  connection.listen();
  const answer = await connection.sendRequest('initialize', {
    processId: null,
    rootUri: null,
    capabilities: {},
  });
  expect(answer).toHaveProperty('serverInfo.name', 'Probewright');
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  expect(await ended).toBe(0);
  connection.dispose();
  await client.initialize({});
});

test('a client that closes its side without a word leaves no server behind', async () => {
  const other = await TestClient.start();
  await other.initialize({});
  const ended = new Promise((settle) => other.process.once('exit', settle));
  other.process.stdin?.end();
  expect(await ended).toBe(1);
  await client.initialize({});
});

test('options that no server knows are accepted at the start', async () => {
  const other = await TestClient.start([
    '--stdio',
    '--clientProcessId',
    String(process.pid),
    '--unheard-of=1',
  ]);
  const answer = await other.connection.sendRequest<object>('initialize', {
    processId: null,
    rootUri: null,
    capabilities: {},
    initializationOptions: ['not', 'ours'],
    somethingNew: { deep: true },
  });
  expect(answer).toHaveProperty('capabilities.hoverProvider', true);
  expect(await other.stop()).toBe(0);
  await client.initialize({});
});
