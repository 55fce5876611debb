import { rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, converse, type Ended, runBuilt, type Start } from './builtCommand.ts';

let built: Awaited<ReturnType<typeof buildCommand>>;
const further = 'G21 G90 G94\nG0 Z20\nG38.2 Z-10 F50\nG1 Z-12\nG0 Z20\nM2\n';

beforeAll(async () => {
  built = await buildCommand();
  writeFileSync(path.join(built.folder, 'further.ngc'), further);
  writeFileSync(path.join(built.folder, 'faults.ngc'), 'G0 X5 X6\n'.repeat(3_000));
  writeFileSync(path.join(built.folder, 'long-line.ngc'), `(${'x'.repeat(1_000_000)})\nG38.2 Z-10\n`);
}, 60_000);

afterAll(() => rmSync(built.folder, { recursive: true, force: true }));

const run = (argv: readonly string[], start: Partial<Start> = {}): Promise<Ended> =>
  runBuilt(built.command, argv, { cwd: built.folder, ...start });

test('reads files from where it is started, and ends with the status of what it found', async () => {
  const { status, out, error } = await run(['check', 'further.ngc', '--format', 'json']);
  expect(JSON.parse(out).files[0]).toMatchObject({
    path: 'further.ngc',
    findings: [{ rule: 'no-retract-after-trip' }],
  });
  expect({ status, error }).toEqual({ status: 1, error: '' });
});

test('reads standard input', async () => {
  const { status, out } = await run(['check', '-', '--format', 'github'], { input: further });
  expect(out).toMatch(/^::error file=-,line=3,col=1,/);
  expect(status).toBe(1);
});

test('colours a pipe only where that is asked for', async () => {
  const check = ['check', 'further.ngc'];
  expect((await run(check)).out).not.toContain('\u001b');
  expect((await run(check, { environment: { FORCE_COLOR: '1' } })).out).toContain('\u001b[31m');
  expect((await run(check, { environment: { FORCE_COLOR: '1', NO_COLOR: '1' } })).out).not.toContain(
    '\u001b',
  );
});

test.each([
  [['check', 'nowhere.ngc'], 'nowhere.ngc'],
  [['check', '--colour', 'further.ngc'], '--colour'],
  [['chekc'], 'Did you mean check?'],
])('%j ends with 2, a word on standard error and nothing on standard output', async (argv, word) => {
  const { status, out, error } = await run(argv);
  expect({ status, out }).toEqual({ status: 2, out: '' });
  expect(error).toContain(word);
  expect(error).not.toMatch(/^\s+at .*:\d+:\d+/m);
});

/** Many findings: more than a pipe holds. */
test('a reader that leaves early is no fault', async () => {
  const { error } = await run(['check', 'faults.ngc', '--format', 'json'], { leavesEarly: true });
  expect(error).toBe('');
});

test('a line of a megabyte is checked', async () => {
  const { status, out } = await run(['check', 'long-line.ngc', '--format', 'json']);
  expect(status).toBe(1);
  expect(JSON.parse(out).files[0].findings).toEqual(
    expect.arrayContaining([expect.objectContaining({ rule: 'probe-feed-unset' })]),
  );
});

test('serves the language protocol on standard input and output, whatever a client adds', async () => {
  const { status, out } = await converse(
    built.command,
    ['serve', '--stdio', '--clientProcessId=1'],
    [
      { id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: {} } },
      { method: 'initialized', params: {} },
      { id: 2, method: 'shutdown' },
      { method: 'exit' },
    ],
  );
  expect(out).toContain('"serverInfo":{"name":"Probewright"');
  expect(out).toMatch(/"id":2,"result":null/);
  expect(status).toBe(0);
});
