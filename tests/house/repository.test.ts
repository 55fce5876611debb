import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { root } from './sources.ts';

const read = (name: string) => readFileSync(path.join(root, name), 'utf8');

interface Manifest {
  readonly version: string;
  readonly license: string;
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly engines: Readonly<Record<string, string>>;
}
const manifest = JSON.parse(read('package.json')) as Manifest;

const allowedAtTop = [
  'LICENSE',
  'README.md',
  'DEVELOPERS.md',
  'biome.json',
  'build.mjs',
  'client',
  'package-lock.json',
  'package.json',
  'server',
  'snippets',
  'syntaxes',
  'tests',
  'tsconfig.json',
  'vitest.config.ts',
];
const madeByRuns = ['node_modules', 'dist', 'coverage'];

describe('the repository', () => {
  test('holds at its top what the house names, and dotfiles', () => {
    const names = readdirSync(root).filter((name) => !name.startsWith('.') && !madeByRuns.includes(name));
    expect(names.sort()).toEqual([...allowedAtTop].sort());
  });

  test('pins every package to one version', () => {
    const all = Object.entries({ ...manifest.dependencies, ...manifest.devDependencies });
    expect(all.length).toBeGreaterThan(0);
    expect(all.filter(([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version))).toEqual([]);
  });

  test('ships bundles: nothing is installed beside the extension', () => {
    expect(manifest.dependencies ?? {}).toEqual({});
  });

  test('refuses an engine that a package does not support', () => {
    expect(read('.npmrc')).toMatch(/^engine-strict=true$/m);
    expect(manifest.engines.node).toMatch(/^>=20\./);
  });

  test('has the licence that its manifest names', () => {
    expect(manifest.license).toBe('MIT');
    expect(read('LICENSE')).toMatch(/^MIT License\n\nCopyright \(c\) The Probewright authors\n/);
  });

  test('starts npm scripts with what Node has of its own', () => {
    for (const name of ['demo.mjs', 'test.mjs', 'testLong.mjs', 'install.mjs', 'run.mjs', 'results.mjs']) {
      const imported = [...read(`.scripts/${name}`).matchAll(/^import .*? from '(.*?)';$/gms)].map(
        (match) => match[1],
      );
      expect(imported.length, name).toBeGreaterThan(0);
      expect(
        imported.filter((from) => !/^(node:|\.\/)/.test(from ?? '')),
        name,
      ).toEqual([]);
    }
  });
});

describe('README.md', () => {
  const sections = () => read('README.md').split(/^## /m);

  test('starts with the job in one paragraph', () => {
    const [title, job] = read('README.md').split('\n\n');
    expect(title).toBe('# Probewright');
    expect(job).toMatch(/touch-probe/);
    expect(job).toMatch(/RS-274/);
  });

  test('then cautions, then the two commands of a first start', () => {
    const headings = sections()
      .slice(1)
      .map((section) => section.split('\n')[0]);
    expect(headings.slice(0, 2)).toEqual(['Cautions', 'Try it']);
    expect(sections()[2]).toMatch(/npm run demo/);
    expect(sections()[2]).toMatch(/npm test/);
  });

  test('names only npm scripts that exist', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    const named = [...`${read('README.md')}${read('DEVELOPERS.md')}`.matchAll(/npm run ([\w:]+)/g)].map(
      (match) => match[1] ?? '',
    );
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
  });
});
