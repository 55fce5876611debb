import type { ExitStatus, Terminal } from './terminal.ts';

/** Says why a command does not begin its work. */
export function refuse(terminal: Terminal, reasons: readonly string[]): ExitStatus {
  for (const reason of reasons) terminal.error(`probewright: ${reason}\n`);
  return 2;
}
