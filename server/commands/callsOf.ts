import { fileURLToPath, pathToFileURL } from 'node:url';
import type { CalledFiles } from '../analysis/calledFiles.ts';
import type { Source } from '../syntax/source.ts';
import { CalledFileFinder } from '../workspace/calledFiles.ts';
import type { Files } from '../workspace/files.ts';
import { ProgramTexts } from '../workspace/programTexts.ts';
import { shownPath } from './paths.ts';
import { decodeProgram } from './programText.ts';
import type { Terminal } from './terminal.ts';

/** Finds what the calls of a program lead to. `path` is absolute; null: standard input, beside which there are no files. */
export type CallsOf = (path: string | null, source: Source) => Promise<CalledFiles>;

export function callsOf(terminal: Terminal): CallsOf {
  const finder = new CalledFileFinder(new ProgramTexts(filesOf(terminal), nothingOpen, timeless));
  return async (path, source) => {
    const uri = path === null ? 'standard-input:' : pathToFileURL(path).href;
    const called = await finder.of(uri, source);
    finder.forget(uri);
    return called;
  };
}

/** A called file as reports show it: by its path from where the reader is. */
export function shownFile(uri: string, { cwd }: Terminal): string {
  return shownPath(cwd, fileURLToPath(uri));
}

const nothingOpen = () => null;
/** Within one run of a command a file is read once. */
const timeless = () => 0;

function filesOf({ files }: Terminal): Pick<Files, 'read'> {
  return {
    async read(uri) {
      const path = fileURLToPath(uri);
      if (files.look(path)?.kind !== 'file') return null;
      const read = files.read(path);
      if ('problem' in read) throw new Error(read.problem);
      return decodeProgram(read.bytes)?.text ?? noText;
    },
  };
}

/** What is no text is told by its first character. */
const noText = '\0';
