import { SourceText } from '../syntax/sourceText.ts';
import type { ProgramPath } from './programPaths.ts';
import { type Coding, decodeProgram } from './programText.ts';
import type { FileProblem, Terminal } from './terminal.ts';

export interface ProgramFile {
  readonly text: SourceText;
  readonly coding: Coding;
}

/** Bytes; a string can hold little more. */
export const largestFile = 500_000_000;

/** The text of a program, or why there is none, in a sentence that names the file. */
export async function readProgram(path: ProgramPath, terminal: Terminal): Promise<ProgramFile | FileProblem> {
  if (path.absolute === null) return whole(path, await terminal.readStandardInput());
  const { files } = terminal;
  const size = files.look(path.absolute)?.size ?? 0;
  if (size > largestFile)
    return {
      problem: `${path.shown}: ${Math.round(size / 1e6)} MB; files of up to ${largestFile / 1e6} MB are read.`,
    };
  const read = files.read(path.absolute);
  return 'problem' in read ? unreadable(path, read) : whole(path, read.bytes);
}

function whole(path: ProgramPath, bytes: Uint8Array): ProgramFile | FileProblem {
  const decoded = decodeProgram(bytes);
  if (decoded === null) return { problem: `${path.shown}: binary, not a program; skipped.` };
  const { text, ...coding } = decoded;
  return { text: SourceText.from(text), coding };
}

export function unreadable(path: ProgramPath, { problem }: FileProblem): FileProblem {
  return { problem: `${path.shown}: cannot be read: ${problem}.` };
}
