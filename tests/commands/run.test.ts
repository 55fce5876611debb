import { describe, expect, test } from 'vitest';
import { ran } from './fakeTerminal.ts';

describe('what the command line does not understand ends with 2 and a word about it on standard error', () => {
  test.each([
    [['chek'], 'check'],
    [[], 'Usage'],
    [['check'], 'path'],
    [['check', '--baselin', 'x', 'a.ngc'], '--baselin'],
    [['check', '--format', 'xml', 'a.ngc'], 'sarif'],
    [['error'], 'file'],
    [['error', 'a.ngc', 'b.ngc'], 'Expected 1'],
    [['generate', 'bore', '--dialect', 'other'], 'rs274ngc'],
    [['serve'], '--stdio'],
  ])('%j', async (argv, word) => {
    const result = await ran(argv);
    expect(result.status).toBe(2);
    expect(result.error.toLowerCase()).toContain(word.toLowerCase());
    expect(result.out).toBe('');
  });
});

test('help and version are answers', async () => {
  expect(await ran(['--version'])).toMatchObject({ status: 0, out: '9.8.7\n', error: '' });
  for (const argv of [['--help'], ['check', '--help'], ['help', 'generate']]) {
    const result = await ran(argv);
    expect(result).toMatchObject({ status: 0, error: '' });
    expect(result.out).toContain('Usage: probewright');
  }
});

test('help says what the exit statuses mean, and what a move can do', async () => {
  const { out } = await ran(['--help']);
  expect(out).toMatch(/0 nothing at error level, 1 errors found, 2 the command could not/);
  expect(out).toContain('single block');
});

test('the server starts whatever else a client adds', async () => {
  const result = await ran(['serve', '--stdio', '--clientProcessId=42', '--node-ipc', 'extra']);
  expect(result).toMatchObject({ status: 0, served: true, out: '', error: '' });
});
