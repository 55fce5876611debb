import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { ClientCapabilities } from 'vscode-languageserver/node';
import { editorCapabilities, removeBuiltServer, TestClient } from './serverProcess.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const up = 'o<up> sub\nG0 Z5\no<up> endsub\n';
const drag = 'o<up> sub\nG0 Y50\no<up> endsub\n';
const caller = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10 F50\no<up> call\nM2\n';

let folder: string;
let client: TestClient;
const uriOf = (name: string) => pathToFileURL(join(folder, name)).href;
const write = (name: string, text: string) => writeFileSync(join(folder, name), text);

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'probewright-calls-'));
  client = await TestClient.start();
});

afterEach(async () => {
  expect(await client.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

afterAll(removeBuiltServer);

async function codes(uri: string): Promise<unknown[]> {
  return (await client.pull(uri)).map(({ code, range }) => [code, range.start.line]);
}

test('findings follow a call into a file on the disk, when it is edited, saved and gone', async () => {
  const { capabilities } = await client.initialize(editorCapabilities);
  expect(capabilities.diagnosticProvider).toMatchObject({ interFileDependencies: true });
  write('up.ngc', up);
  await client.open(uriOf('part.ngc'), caller);
  expect(await codes(uriOf('part.ngc'))).toEqual([]);

  await client.open(uriOf('up.ngc'), up);
  await client.change(uriOf('up.ngc'), 2, [{ text: drag }]);
  const [finding] = await client.pull(uriOf('part.ngc'));
  expect([finding?.code, finding?.range.start.line]).toEqual(['no-retract-after-trip', 2]);
  expect(finding?.relatedInformation?.[0]?.location.range.start.line).toBe(3);

  await client.close(uriOf('up.ngc'));
  expect(await codes(uriOf('part.ngc'))).toEqual([]);
  write('up.ngc', drag);
  const changed = { changes: [{ uri: uriOf('up.ngc'), type: 2 }] };
  client.refreshes = 0;
  await client.connection.sendNotification('workspace/didChangeWatchedFiles', changed);
  expect(await codes(uriOf('part.ngc'))).toEqual([['no-retract-after-trip', 2]]);
  expect(client.refreshes).toBe(1);
  rmSync(join(folder, 'up.ngc'));
  await client.connection.sendNotification('workspace/didChangeWatchedFiles', changed);
  expect(await codes(uriOf('part.ngc'))).toEqual([['undefined-subroutine', 3]]);
});

test('a client that does not ask gets the findings of the caller again when what it calls changes', async () => {
  const { diagnostic: _, ...textDocument } = editorCapabilities.textDocument ?? {};
  const pushOnly: ClientCapabilities = { ...editorCapabilities, textDocument };
  await client.initialize(pushOnly);
  await client.open(uriOf('part.ngc'), caller);
  await client.pushed(({ uri }) => uri === uriOf('part.ngc'));
  await client.open(uriOf('up.ngc'), drag);
  const pushed = await client.pushed(({ diagnostics }) => diagnostics.length > 0);
  expect(pushed.uri).toBe(uriOf('part.ngc'));
});
