import { afterAll, afterEach, beforeEach, describe, expect, test } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver/node';
import { editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

let client: TestClient;

beforeEach(async () => {
  client = await TestClient.start();
  await client.initialize(editorCapabilities);
}, 60_000);

afterEach(async () => {
  expect(client.logged).toEqual([]);
  expect(await client.stop()).toBe(0);
}, 60_000);

afterAll(removeBuiltServer);

const uri = 'file:///nowhere/part.ngc';
const probing = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10 F50\nG1 Z-12\n';
const megabyte = 1_000_000;
const bytes = Array.from({ length: 100_000 }, (_, index) => String.fromCharCode((index * 7919) % 256)).join(
  '',
);
const milled = () => 'G1 X10.5 Y-3.25 Z-1.5\nG1 X-10.5 Y3.25\n'.repeat(1_050_000).slice(0, 40_000_000);

/** Everything that a person's editor asks by itself, with an edit in between. */
async function work(text: string): Promise<readonly Diagnostic[]> {
  const textDocument = { uri };
  const position = { line: 2, character: 1 };
  await client.open(uri, text);
  const found = await client.pull(uri);
  await client.request('textDocument/hover', { textDocument, position });
  await client.request('textDocument/documentSymbol', { textDocument });
  await client.request('textDocument/foldingRange', { textDocument });
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
  await client.change(uri, 2, [{ range, text: ' ' }]);
  await client.request('textDocument/completion', { textDocument, position });
  await client.request('textDocument/codeAction', { textDocument, range, context: { diagnostics: [] } });
  expect(await client.pull(uri)).toHaveLength(found.length);
  await client.close(uri);
  return found;
}

describe('the server stays up, and says what there is to say', { timeout: 120_000 }, () => {
  test.each<[string, string, RegExp | null]>([
    ['an empty file', '', null],
    ['a binary', bytes, /^This file is binary/],
    ['a line of a megabyte of words', 'X1'.repeat(megabyte / 2), /1000000 characters/],
    ['a line of a megabyte of (', '('.repeat(megabyte), /comment/],
    ['a line of a megabyte of [', `#1=${'['.repeat(megabyte)}`, /nested too deep/],
    ['a line of a megabyte of #', '#'.repeat(megabyte), /nested too deep/],
    ['a line of a megabyte of ;', ';'.repeat(megabyte), /1000000 characters/],
    ['half a word', 'G38.', null],
    ['nothing but line ends of all kinds', '\r\n\r\r\n\n\r'.repeat(10_000), null],
    ['everything unclosed', `${probing}o1 sub\no2 if [\no3 while [1\n#<a = [\n( \nG38.2 X[\n`, /./],
  ])('%s', async (_, text, expected) => {
    const messages = (await work(text)).map(({ message }) => message);
    if (expected) expect(messages.join('\n')).toMatch(expected);
    else expect(messages.length).toBeLessThan(2);
  });

  test('a fault in front of forty megabytes of milling is found, and found again after an edit', async () => {
    expect((await work(probing + milled())).map(({ code }) => code)).toEqual(['no-retract-after-trip']);
  });
});
