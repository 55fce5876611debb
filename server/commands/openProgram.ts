import { LostText, type StoredBytes } from '../syntax/chunksOfBytes.ts';
import { SourceText } from '../syntax/sourceText.ts';
import type { ProgramPath } from './programPaths.ts';
import { decodeAs, isBinary } from './programText.ts';
import { largestFile, readProgram, unreadable } from './readProgram.ts';
import type { FileProblem, OpenFile, Terminal } from './terminal.ts';

export interface OpenProgram {
  readonly text: SourceText;
  /** Nobody asks for the text any more. */
  close(): void;
}

/** Up to here a file is read whole. */
const smallFile = 1 << 20;

/**
 * The text of a program, or why there is none. Of a large file only what is read again stays in memory: asking `text` for
 * more throws `LostText` where the file was written to meanwhile.
 */
export async function openProgram(path: ProgramPath, terminal: Terminal): Promise<OpenProgram | FileProblem> {
  const size = path.absolute === null ? 0 : (terminal.files.look(path.absolute)?.size ?? 0);
  const large = path.absolute !== null && size > smallFile && size <= largestFile;
  const stored = large ? await openLarge(path, path.absolute, terminal) : null;
  if (stored) return stored;
  const read = await readProgram(path, terminal);
  return 'problem' in read ? read : { text: read.text, close() {} };
}

/** null: it is in an encoding, or begins in a way, that only the whole of it shows. */
async function openLarge(
  path: ProgramPath,
  absolute: string,
  { files }: Terminal,
): Promise<OpenProgram | FileProblem | null> {
  const file = files.open(absolute);
  if ('problem' in file) return unreadable(path, file);
  const text = await orProblem(path, () => storedText(file));
  if (text !== null && !('problem' in text)) return { text, close: () => file.close() };
  file.close();
  return text;
}

function storedText(file: OpenFile): SourceText | null {
  const beginning = new Uint8Array(8000);
  const bytes = beginning.subarray(0, readFrom(file, beginning, 0));
  // UTF-16 has NUL in it too.
  if (isBinary(bytes) || bytes[0] === 0xff || bytes[0] === 0xfe) return null;
  const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  const stored = (encoding: 'utf-8' | 'latin-1'): StoredBytes => ({
    read: (into, from) => readFrom(file, into, from + mark),
    decode: (some) => decodeAs(encoding, some),
  });
  return (
    SourceText.fromBytes(stored('utf-8')) ?? (mark === 0 ? SourceText.fromBytes(stored('latin-1')) : null)
  );
}

function readFrom(file: OpenFile, into: Uint8Array, from: number): number {
  const read = file.read(into, from);
  if (typeof read !== 'number') throw new LostText(read.problem);
  return read;
}

/** What `action` gives; in place of a text that was lost on the way, that it was. */
export async function orProblem<T>(
  path: ProgramPath,
  action: () => T | Promise<T>,
): Promise<T | FileProblem> {
  try {
    return await action();
  } catch (error) {
    if (error instanceof LostText) return unreadable(path, { problem: error.message });
    throw error;
  }
}
