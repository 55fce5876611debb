import { resolve } from 'node:path';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

/** Writes a text to the file that the person named; 2 and a sentence where it can not be written. */
export function writeFile(name: string, text: string, terminal: Terminal): ExitStatus {
  const fault = terminal.files.write(resolve(terminal.cwd, name), new TextEncoder().encode(text));
  return fault === null ? 0 : refuse(terminal, [`${name}: cannot be written: ${fault.problem}.`]);
}
