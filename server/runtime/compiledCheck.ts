import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';

/** What server/compiledCheck.ts exports. */
interface Check {
  readonly check: typeof import('../commands/check.ts').check;
  readonly run: typeof import('../commands/run.ts').run;
  readonly version: string;
  readonly nodeTerminal: typeof import('./nodeTerminal.ts').nodeTerminal;
}

/** What the command takes, as a script. */
export const checkScript = 'check.cjs';
/** What V8 made of it: that fits the Node that made it alone, so its name says which. */
export const compiledName = `check-${process.versions.v8}-${process.arch}.bin`;

/**
 * What the command `check` takes, from where the build left it compiled: else loading and compiling it are a fifth of the
 * time for a million blocks, and more for a few. null where there is none for this Node.
 * @param folder holds both files
 */
export function readCompiledCheck(folder: URL): Check | null {
  const files = readBoth(folder);
  if (files === null) return null;
  const { script, module } = asScript(folder, files);
  return script.cachedDataRejected ? null : module();
}

/** For the build: the command, and the bytes to leave for the next time, to be asked for when it has run. */
export function compileCheck(folder: URL): { readonly command: Check; compiled(): Uint8Array } {
  const { script, module } = asScript(folder, { code: readFileSync(new URL(checkScript, folder), 'utf8') });
  return { command: module(), compiled: () => script.createCachedData() };
}

interface Files {
  readonly code: string;
  readonly cachedData?: Buffer;
}

function readBoth(folder: URL): Files | null {
  try {
    const cachedData = readFileSync(new URL(compiledName, folder));
    return { cachedData, code: readFileSync(new URL(checkScript, folder), 'utf8') };
  } catch {
    return null;
  }
}

/** As Node wraps a CommonJS module. */
function asScript(folder: URL, { code, cachedData }: Files) {
  const filename = fileURLToPath(new URL(checkScript, folder));
  const script = new Script(`(function (module, exports, require) {${code}\n})`, { filename, cachedData });
  const module = (): Check => {
    const made = { exports: {} };
    script.runInThisContext()(made, made.exports, createRequire(filename));
    return made.exports as Check;
  };
  return { script, module };
}
