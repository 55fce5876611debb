// Makes dist/: the command line (also the stdio server), the extension, the language server that it starts, what these
// share and load when it is asked for (parts/), `check` compiled for this Node, the schema of the profile, and the tests
// that run inside VS Code.
// `--development` keeps names and adds source maps.
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { build } from 'esbuild';
import { otherCommandsElsewhere, packagesAsNeeded } from './.scripts/bundling.mjs';
import { useCheck } from './.scripts/useCheck.mjs';

const root = fileURLToPath(new URL('.', import.meta.url));
const development = process.argv.includes('--development');

const shared = {
  absWorkingDir: root,
  bundle: true,
  platform: 'node',
  target: 'node20',
  // The `main` of jsonc-parser is a UMD file that esbuild cannot follow.
  mainFields: ['module', 'main'],
  minify: !development,
  sourcemap: development ? 'linked' : false,
  legalComments: 'none',
  logLevel: 'warning',
};

/** Bundled CommonJS packages ask `require` for Node's own modules, and an ES module has none. */
const requireForPackages =
  "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);";

const programs = {
  ...shared,
  entryPoints: { probewright: 'server/commandLine.ts', languageServer: 'server/languageServer.ts' },
  outdir: 'dist',
  format: 'esm',
  splitting: true,
  chunkNames: 'parts/[name]-[hash]',
  banner: { js: requireForPackages },
  plugins: [packagesAsNeeded],
  metafile: true,
};

/** Parts have new names when they change: those of earlier builds would stay. */
function removeOldParts({ metafile }) {
  const folder = path.join(root, 'dist/parts');
  const made = new Set(Object.keys(metafile.outputs).map((file) => path.join(root, file)));
  for (const name of existsSync(folder) ? readdirSync(folder) : []) {
    if (!made.has(path.join(folder, name))) rmSync(path.join(folder, name), { force: true });
  }
}

// VS Code loads `.cjs` with require, whatever the package's type.
const insideCode = { ...shared, format: 'cjs', outExtension: { '.js': '.cjs' } };

const suiteFolder = 'tests/host/suite';
const suiteFiles = readdirSync(path.join(root, suiteFolder)).filter((name) => name.endsWith('.test.ts'));
rmSync(path.join(root, 'dist/tests'), { recursive: true, force: true });

/** What a module of these contents exports. */
async function evaluated(contents) {
  const folder = mkdtempSync(path.join(tmpdir(), 'probewright-build-'));
  try {
    const outfile = path.join(folder, 'evaluated.mjs');
    const { banner, plugins } = programs;
    const stdin = { contents, resolveDir: root };
    await build({ ...shared, stdin, format: 'esm', banner, plugins, sourcemap: false, outfile });
    return await import(pathToFileURL(outfile));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A script of its own, as modules cannot be left compiled. Later than the parts, which sweep what is not theirs. */
async function writeCompiledCheck() {
  const { checkScript, compiledName, compileCheck, readCompiledCheck, run } = await evaluated(
    "export * from './server/runtime/compiledCheck.ts'; export { run } from './server/commands/run.ts';",
  );
  const parts = path.join(root, 'dist/parts');
  await build({
    ...shared,
    format: 'cjs',
    plugins: [packagesAsNeeded, otherCommandsElsewhere],
    entryPoints: ['server/compiledCheck.ts'],
    outfile: path.join(parts, checkScript),
  });
  const folder = pathToFileURL(`${parts}/`);
  // V8 forgets what was not used for a while, and takes compiled code only under the flags that it was made under.
  setFlagsFromString('--no-flush-bytecode');
  const { command, compiled } = compileCheck(folder);
  await useCheck(command, run);
  setFlagsFromString('--flush-bytecode');
  writeFileSync(path.join(parts, compiledName), compiled());
  if (readCompiledCheck(folder) === null) throw new Error('V8 refuses what it has just compiled.');
}

/** The editor completes and explains profiles and setups by the definitions that the program validates them with. */
async function writeSchemas() {
  const contents =
    "export { profileSchema } from './server/profile/profile.ts'; export { setupSchema } from './server/part/setupDefinition.ts'; export { ruleIds } from './server/checks/registry.ts';";
  const { profileSchema, setupSchema, ruleIds } = await evaluated(contents);
  // VS Code's own keyword: these files may have a comma behind their last entry.
  const lenient = (schema) => ({ ...schema, allowTrailingCommas: true });
  // The server words an unknown key, with the nearest known one: the editor need not say it a second time.
  const worded = (key, value) => (key === 'additionalProperties' && value === false ? undefined : value);
  mkdirSync(path.join(root, 'dist'), { recursive: true });
  const profile = JSON.stringify(lenient(profileSchema(ruleIds)), worded);
  writeFileSync(path.join(root, 'dist/profile.schema.json'), profile);
  writeFileSync(path.join(root, 'dist/setup.schema.json'), JSON.stringify(lenient(setupSchema())));
}

await Promise.all([
  writeSchemas(),
  build(programs).then(removeOldParts).then(writeCompiledCheck),
  build({
    ...insideCode,
    entryPoints: { extension: 'client/extension.ts' },
    outdir: 'dist',
    external: ['vscode'],
  }),
  build({
    ...insideCode,
    minify: false,
    sourcemap: 'inline',
    entryPoints: ['index.ts', ...suiteFiles].map((name) => `${suiteFolder}/${name}`),
    outdir: 'dist/tests',
    external: ['vscode', 'mocha'],
  }),
]);
chmodSync(path.join(root, 'dist/probewright.js'), 0o755);
