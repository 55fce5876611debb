import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver/node';
import {
  type ProposeSetupResult,
  proposeSetup,
  type RehearsalView,
  type RehearseResult,
  rehearse,
} from '../../server/protocol/requests.ts';
import { editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

const demo = (name: string) => readFileSync(`client/walkthrough/demo/${name}`, 'utf8');
// Where they are, so that the profile beside them holds.
const place = (name: string) => pathToFileURL(`client/walkthrough/demo/${name}`).href;
const program = place('bore-centre.ngc');
const setupUri = place('bore-centre.setup.json');
const setup = demo('bore-centre.setup.json');
let client: TestClient;

beforeAll(async () => {
  client = await TestClient.start();
  await client.initialize(editorCapabilities);
  await client.open(program, demo('bore-centre.ngc'));
});

afterAll(async () => {
  await client.stop();
  removeBuiltServer();
});

const ask = (given: object) => client.request<RehearseResult>(rehearse, { uri: program, ...given });

test('a program is rehearsed in the setup that is open, with progress', async () => {
  await client.open(setupUri, setup, 'jsonc');
  const told: { kind: string; message?: string }[] = [];
  client.connection.onNotification('$/progress', ({ value }) => {
    told.push(value);
  });
  const view = (await ask({ setup: { uri: setupUri }, workDoneToken: 'rehearsing' })) as RehearsalView;
  expect(view.kind).toBe('rehearsed');
  expect(view.undisturbed.outcome.name).toBe('datum-right');
  expect(view.undisturbed.touches).toHaveLength(9);
  expect(view.undisturbed.touches[0]).toMatchObject({
    line: 26,
    code: 'G38.3',
    direction: 'Z−',
    overtravel: 'no contact',
  });
  // The probe that never trips is what no program can survive.
  expect(view.verdict).toBe('pass');
  expect(view.runs.filter(({ outcome }) => outcome.grade === 'bad').map(({ title }) => title)).toEqual([
    'probe-dead',
  ]);
  const counted = view.matrix.rows.flatMap(({ counts }) => counts).reduce((sum, count) => sum + count, 0);
  expect(counted).toBe(view.runs.length);
  expect(told.at(0)?.kind).toBe('begin');
  expect(told.at(-1)?.kind).toBe('end');
  expect(told.some(({ kind, message }) => kind === 'report' && message?.includes('fault'))).toBe(true);
  await client.close(setupUri);
});

test('what is wrong with a setup comes back with its place, and stands in its file', async () => {
  const wrong = setup.replace('"diameter": 62', '"diametre": 62');
  const line = wrong.split('\n').findIndex((text) => text.includes('diametre'));
  const character = wrong.split('\n')[line]?.indexOf('"diametre"');
  const answer = await ask({ setup: { text: wrong } });
  expect(answer).toMatchObject({ kind: 'refused', problems: [{ uri: null, position: { line, character } }] });
  await client.open(setupUri, wrong, 'jsonc');
  const found = await client.pull(setupUri);
  expect(found[0]?.range.start).toEqual({ line, character });
  expect(found[0]?.message).toContain('diametre');
  await client.change(setupUri, 2, [{ text: setup }]);
  expect(await client.pull(setupUri)).toEqual([]);
  await client.close(setupUri);
});

test.each([
  ['', 'a text that is empty'],
  ['{', 'half a text'],
  ['[]', 'a list'],
  ['\0\u0001PK', 'no text at all'],
])('%j is refused in words', async (text) => {
  const answer = await ask({ setup: { text } });
  if (answer.kind !== 'refused') throw new Error('It was taken.');
  expect(answer.problems[0]?.message).toMatch(/\w+ \w+/);
});

test('a program that is not open and a setup that is not there are told of', async () => {
  const closed = await ask({ uri: 'file:///nowhere/other.ngc', setup: { text: setup } });
  expect(closed).toMatchObject({
    kind: 'refused',
    problems: [{ message: expect.stringContaining('Open the program') }],
  });
  const missing = await ask({ setup: { uri: 'file:///nowhere/no.setup.json' } });
  expect(missing).toMatchObject({
    kind: 'refused',
    problems: [{ message: expect.stringContaining('cannot be read') }],
  });
});

test('other requests go first while a long rehearsal runs, and it can be given up', async () => {
  const endless = 'file:///nowhere/endless.ngc';
  await client.open(endless, 'G21 G90\nG0 X1\no1 while [1 EQ 1]\n  #1 = [#1 + 1]\no1 endwhile\nM2\n');
  const source = new CancellationTokenSource();
  const given = { uri: endless, setup: { text: setup } };
  const ended: string[] = [];
  const long = client.connection
    .sendRequest(rehearse, given, source.token)
    .catch((error: { code: number }) => ended.push(`given up: ${error.code}`));
  await client.request('textDocument/hover', {
    textDocument: { uri: endless },
    position: { line: 1, character: 0 },
  });
  ended.push('hover');
  source.cancel();
  await long;
  expect(ended).toEqual(['hover', 'given up: -32800']);
});

test('a client that is pushed to gets the problems of a setup too, and none once it is closed', async () => {
  const pushed = await TestClient.start();
  await pushed.initialize({ textDocument: { publishDiagnostics: {} } });
  await pushed.open(setupUri, '{ "start": [0, 0] }', 'jsonc');
  const { diagnostics } = await pushed.pushed(({ uri }) => uri === setupUri);
  expect(diagnostics[0]?.message).toContain('start');
  await pushed.close(setupUri);
  await pushed.pushed(({ uri, diagnostics }) => uri === setupUri && diagnostics.length === 0);
  await pushed.stop();
});

test('a setup is proposed from what an open program touches, or why not is said', async () => {
  const answer = await client.request<ProposeSetupResult>(proposeSetup, { uri: program });
  if (answer.kind !== 'proposed') throw new Error(answer.message);
  expect(answer.text).toContain('Proposed for bore-centre.ngc');
  const view = (await ask({ setup: { text: answer.text } })) as RehearsalView;
  expect(view.undisturbed.outcome.name).toBe('datum-right');
  const milling = 'file:///nowhere/milling.ngc';
  await client.open(milling, 'G21 G90\nG1 X10 F100\nM2\n');
  const none = await client.request<ProposeSetupResult>(proposeSetup, { uri: milling });
  expect(none).toEqual({ kind: 'none', message: expect.stringContaining('no touch') });
  const closed = await client.request<ProposeSetupResult>(proposeSetup, { uri: 'file:///nowhere/else.ngc' });
  expect(closed).toEqual({ kind: 'none', message: expect.stringContaining('Open the program') });
});
