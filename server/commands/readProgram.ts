import type { ProgramPath } from './programPaths.ts';
import { decodeProgram, type ProgramText } from './programText.ts';
import type { Terminal } from './terminal.ts';

/** A string can hold little more. */
const largestFile = 500_000_000;

/** The text of a program, or why there is none, in a sentence that names the file. */
export async function readProgram(
  path: ProgramPath,
  terminal: Terminal,
): Promise<ProgramText | { readonly problem: string }> {
  const read =
    path.absolute === null ? { bytes: await terminal.readStandardInput() } : readFile(path, terminal);
  if ('problem' in read) return read;
  return decodeProgram(read.bytes) ?? { problem: `${path.shown}: binary, not a program; skipped.` };
}

function readFile(path: ProgramPath, { files }: Terminal): { bytes: Uint8Array } | { problem: string } {
  const absolute = path.absolute ?? '';
  const size = files.look(absolute)?.size ?? 0;
  if (size > largestFile)
    return {
      problem: `${path.shown}: ${Math.round(size / 1e6)} MB; files of up to ${largestFile / 1e6} MB are read.`,
    };
  const read = files.read(absolute);
  return 'problem' in read ? { problem: `${path.shown}: cannot be read: ${read.problem}.` } : read;
}
