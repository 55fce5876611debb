// Puts the command `check` to use, so that what it is compiled to holds what a check runs.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** Above what is read whole, so that the way of long programs is gone too. */
const longLines = 80_000;

/**
 * Checks routines that `generate` of the whole command line writes, and long programs with a fault. Throws where a command
 * ends otherwise than it must.
 */
export async function useCheck({ run, check, nodeTerminal }, runWhole) {
  const folder = mkdtempSync(path.join(tmpdir(), 'probewright-build-'));
  try {
    const ran = async (run, expected, ...argv) => {
      let out = '';
      const keep = (text) => {
        out += text;
      };
      const offered = { version: '', check };
      const status = await run(argv, { ...nodeTerminal(process), cwd: folder, out: keep }, offered);
      if (status !== expected) throw new Error(`${argv.join(' ')} ended with ${status}.`);
      return out;
    };
    // A fault, so that findings are worded too: a traverse from the trip.
    const faulty = 'T99 M6\nG0 X0 Y0\nG38.2 Z-10 F100\n#<_height> = #5063\nG0 X50\nM2\n';
    for (const dialect of ['rs274ngc', 'macro']) {
      const written = await ran(runWhole, 0, 'generate', 'bore', '--dialect', dialect);
      writeFileSync(path.join(folder, `${dialect}.ngc`), written);
      const milling = Array.from(
        { length: longLines },
        (_, line) => `G1 X${line % 97}.25 Y-${line % 89}.5 Z-1. F900`,
      );
      writeFileSync(path.join(folder, `long-${dialect}.ngc`), `G21 G90\n${milling.join('\n')}\n${faulty}`);
    }
    await ran(run, 1, 'check', '--format', 'json', folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
