import { builtinModules } from 'node:module';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { lineOf, nodesOf, type SourceFile, sourceFiles } from './sources.ts';

const floors: Readonly<Record<string, number>> = {
  editor: 6,
  debugger: 6,
  commands: 6,
  workspace: 5,
  report: 5,
  checks: 4,
  routines: 4,
  rehearsal: 4,
  analysis: 3,
  program: 2,
  syntax: 1,
  profile: 1,
  probe: 1,
  part: 1,
};
const entries = ['server/languageServer.ts', 'server/commandLine.ts', 'server/compiledCheck.ts'];

/** The room of a file of the server: its folder, `entry`, or null for a file that is not ours. */
function roomOf(file: string): string | null {
  if (entries.includes(file)) return 'entry';
  return /^server\/(\w+)\//.exec(file)?.[1] ?? null;
}

/** Why `from` must not import `to`; null when it may. */
export function breach(from: string, to: string): string | null {
  if (from.startsWith('client/')) return clientBreach(to);
  const [room, target] = [roomOf(from), roomOf(to)];
  if (to.startsWith('client/')) return 'the server does not know the client';
  if (target === null || room === target || room === 'entry') return null;
  if (target === 'entry') return 'entries are imported by nobody';
  if (target === 'runtime') return 'only the entries import runtime/';
  if (room === 'protocol') return 'protocol/ imports nothing';
  if (room === 'runtime') return null;
  const [floor, below] = [floors[room ?? ''], floors[target]];
  if (target === 'protocol')
    return floor === 6 ? null : 'only floor 6, the entries and runtime/ know protocol/';
  if (floor === undefined || below === undefined)
    return `${floor === undefined ? room : target} is no room of the house`;
  if (room === 'profile' && target === 'probe') return null;
  return below < floor ? null : `floor ${floor} does not import floor ${below}`;
}

function clientBreach(to: string): string | null {
  return to.startsWith('server/') && roomOf(to) !== 'protocol'
    ? 'of the server the client knows protocol/ alone'
    : null;
}

const machinery = new Set(['vscode', 'worker_threads', ...builtinModules]);
const isMachinery = (name: string) =>
  machinery.has(name) || /^(node:|vscode-(languageserver|languageclient|jsonrpc))/.test(name);

/** Globals that reach the clock, the process, the network or the terminal. */
const outside = new Set([
  'process',
  'performance',
  'console',
  'fetch',
  'setTimeout',
  'setInterval',
  'setImmediate',
  'Worker',
]);

const pureFiles = (): SourceFile[] =>
  sourceFiles('server').filter(({ path }) => (floors[roomOf(path) ?? ''] ?? 6) < 6);

describe('floors', () => {
  test('an import goes down', () => {
    const found = sourceFiles('client', 'server').flatMap(({ path, imports }) =>
      imports.flatMap((target) => breach(path, target) ?? []).map((why) => `${path}: ${why}`),
    );
    expect(found).toEqual([]);
  });

  test('every file of the server stands in a room', () => {
    const rooms = [...Object.keys(floors), 'entry', 'protocol', 'runtime'];
    const strays = sourceFiles('server').filter(({ path }) => !rooms.includes(roomOf(path) ?? ''));
    expect(strays.map(({ path }) => path)).toEqual([]);
  });

  test.each([
    ['server/syntax/a.ts', 'server/program/b.ts'],
    ['server/checks/a.ts', 'server/routines/b.ts'],
    ['server/probe/a.ts', 'server/profile/b.ts'],
    ['server/editor/a.ts', 'server/runtime/b.ts'],
    ['server/analysis/a.ts', 'server/protocol/b.ts'],
    ['server/protocol/a.ts', 'server/probe/b.ts'],
    ['server/editor/a.ts', 'server/languageServer.ts'],
    ['server/report/a.ts', 'client/b.ts'],
    ['client/a.ts', 'server/report/b.ts'],
  ])('%s must not import %s', (from, to) => {
    expect(breach(from, to)).not.toBeNull();
  });

  test.each([
    ['server/editor/a.ts', 'server/checks/b.ts'],
    ['server/profile/a.ts', 'server/probe/b.ts'],
    ['server/commandLine.ts', 'server/runtime/b.ts'],
    ['client/a.ts', 'server/protocol/b.ts'],
    ['server/checks/a.ts', 'zod/mini'],
  ])('%s may import %s', (from, to) => {
    expect(breach(from, to)).toBeNull();
  });
});

describe('below editor/, debugger/ and commands/', () => {
  test('nothing imports Node, VS Code or the language protocol', () => {
    const found = pureFiles().flatMap(({ path, imports }) =>
      imports.filter(isMachinery).map((name) => `${path}: ${name}`),
    );
    expect(found).toEqual([]);
  });

  test('nothing asks the clock, the process, the network or the terminal', () => {
    const found = pureFiles().flatMap((file) =>
      nodesOf(file.tree)
        .filter(asksOutside)
        .map((node) => `${file.path}:${lineOf(file, node)}: ${node.getText()}`),
    );
    expect(found).toEqual([]);
  });

  test.each(['Date.now()', 'new Date()', 'Math.random()', 'process.cwd()', 'setTimeout(f, 1)'])(
    '%s would be seen',
    (text) => {
      const tree = ts.createSourceFile('a.ts', text, ts.ScriptTarget.ES2023, true);
      expect(nodesOf(tree).some(asksOutside)).toBe(true);
    },
  );
});

function asksOutside(node: ts.Node): boolean {
  if (ts.isPropertyAccessExpression(node)) return ['Date.now', 'Math.random'].includes(node.getText());
  if (ts.isNewExpression(node)) return node.expression.getText() === 'Date' && !node.arguments?.length;
  if (!ts.isIdentifier(node) || !outside.has(node.text)) return false;
  const { parent } = node;
  const isName =
    (ts.isPropertyAccessExpression(parent) || ts.isPropertyAssignment(parent) || ts.isTypeElement(parent)) &&
    parent.name === node;
  return (
    !isName &&
    !(ts.isParameter(parent) || ts.isVariableDeclaration(parent) || ts.isFunctionDeclaration(parent))
  );
}
