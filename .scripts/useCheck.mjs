// Puts the command `check` to use, so that what it is compiled to holds what a check runs.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** Checks routines that the command line writes. `run`: see server/commands/run.ts. Throws where a command fails. */
export async function useCheck({ run, command, terminal }) {
  const folder = mkdtempSync(path.join(tmpdir(), 'probewright-build-'));
  try {
    const ran = async (...argv) => {
      let out = '';
      const keep = (text) => {
        out += text;
      };
      const offered = { version: '', compiledCheck: async () => command };
      const status = await run(argv, { ...terminal, cwd: folder, out: keep }, offered);
      if (status !== 0) throw new Error(`${argv.join(' ')} ended with ${status}.`);
      return out;
    };
    for (const dialect of ['rs274ngc', 'macro']) {
      const written = await ran('generate', 'bore', '--dialect', dialect);
      writeFileSync(path.join(folder, `${dialect}.ngc`), written);
    }
    await ran('check', '--format', 'json', folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
