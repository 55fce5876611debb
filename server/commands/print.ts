import type { Terminal } from './terminal.ts';

const enough = 65_536;

/** Pieces written together: a system call for each would take longer than making them. */
export function print(terminal: Terminal, pieces: Iterable<string>): void {
  let text = '';
  for (const piece of pieces) {
    text += piece;
    if (text.length < enough) continue;
    terminal.out(text);
    text = '';
  }
  if (text !== '') terminal.out(text);
}
