import { SourceText } from '../syntax/sourceText.ts';
import type { ProgramPath } from './programPaths.ts';
import { type Coding, decodeAscii, decodeProgram, isBinary } from './programText.ts';
import type { FileProblem, Terminal } from './terminal.ts';

export interface ProgramFile {
  readonly text: SourceText;
  readonly coding: Coding;
}

/** A string can hold little more. */
const largestFile = 500_000_000;

/** The text of a program, or why there is none, in a sentence that names the file. */
export async function readProgram(path: ProgramPath, terminal: Terminal): Promise<ProgramFile | FileProblem> {
  if (path.absolute === null) return whole(path, await terminal.readStandardInput());
  const { files } = terminal;
  const size = files.look(path.absolute)?.size ?? 0;
  if (size > largestFile)
    return {
      problem: `${path.shown}: ${Math.round(size / 1e6)} MB; files of up to ${largestFile / 1e6} MB are read.`,
    };
  const ascii = readAscii(path.absolute, terminal);
  const read = ascii ?? files.read(path.absolute);
  if ('problem' in read) return { problem: `${path.shown}: cannot be read: ${read.problem}.` };
  return 'bytes' in read ? whole(path, read.bytes) : read;
}

function whole(path: ProgramPath, bytes: Uint8Array): ProgramFile | FileProblem {
  const decoded = decodeProgram(bytes);
  if (decoded === null) return { problem: `${path.shown}: binary, not a program; skipped.` };
  const { text, ...coding } = decoded;
  return { text: SourceText.from(text), coding };
}

/** Piece by piece, which takes half the time in a large file; null: it is not ASCII throughout, or a line is too long. */
function readAscii(absolute: string, { files }: Terminal): ProgramFile | FileProblem | null {
  const pieces: string[] = [];
  const read = files.readInPieces(absolute, (bytes, last) => {
    if (pieces.length === 0 && isBinary(bytes)) return 0;
    const end = last ? bytes.length : bytes.lastIndexOf(lineFeed) + 1;
    const text = decodeAscii(bytes.subarray(0, end));
    if (text === null || text === '') return 0;
    pieces.push(text);
    return end;
  });
  if ('problem' in read) return read;
  return read.done
    ? { text: SourceText.fromPieces(pieces), coding: { encoding: 'utf-8', mark: false } }
    : null;
}

const lineFeed = 10;
