import { readdirSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { lineOf, nodesOf, root, sourceFiles } from './sources.ts';

const camelCase = /^[a-z][a-zA-Z0-9]*(\.long)?(\.test)?\.(ts|mjs)$/;
const sayNothing = /^(utils?|helpers?|common|misc|lib)$/i;

const allFiles = () =>
  ['client', 'server', 'tests', '.scripts'].flatMap((folder) =>
    readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' }).map((name) =>
      path.join(folder, name),
    ),
  );

describe('how we write', () => {
  test('files are named in camelCase', () => {
    const code = allFiles().filter((name) => /\.(ts|mjs)$/.test(name));
    expect(code.length).toBeGreaterThan(0);
    expect(code.filter((name) => !camelCase.test(path.basename(name)))).toEqual([]);
  });

  test('no file or folder has a name that says nothing', () => {
    const parts = (name: string) => name.split(path.sep).map((part) => part.replace(/\..*$/, ''));
    expect(allFiles().filter((name) => parts(name).some((part) => sayNothing.test(part)))).toEqual([]);
  });

  test('nothing has the type any', () => {
    const found = sourceFiles('client', 'server', 'tests').flatMap((file) =>
      nodesOf(file.tree)
        .filter((node) => node.kind === ts.SyntaxKind.AnyKeyword)
        .map((node) => `${file.path}:${lineOf(file, node)}`),
    );
    expect(found).toEqual([]);
  });

  test('no compiler or linter complaint is silenced without a reason', () => {
    const silenced = /@ts-(ignore|nocheck|expect-error)|biome-ignore(?!.*: \S+)|eslint-disable/;
    const found = sourceFiles('client', 'server').filter(({ tree }) => silenced.test(tree.text));
    expect(found.map((file) => file.path)).toEqual([]);
  });
});
