import { buffer } from 'node:stream/consumers';
import { terminalFiles } from './terminalFiles.ts';

/** The terminal that Node runs in: its streams, its files, its wishes about colour. */
export function nodeTerminal(node: NodeJS.Process) {
  const interactive = node.stderr.isTTY === true;
  return {
    cwd: node.cwd(),
    files: terminalFiles,
    readStandardInput: () => buffer(node.stdin),
    out: (text: string) => void node.stdout.write(text),
    error: (text: string) => void node.stderr.write(text),
    progress: (text: string | null) => {
      if (interactive)
        node.stderr.write(`\r\u001b[K${text?.slice(0, (node.stderr.columns ?? 80) - 1) ?? ''}`);
    },
    colour: wantsColour(node.env, node.stdout.isTTY === true),
    width: Math.min(Math.max(node.stdout.columns ?? 100, 60), 120),
  };
}

/** NO_COLOR (any value that is not empty) forbids, FORCE_COLOR (not empty, not 0) asks; else what the terminal can. */
export function wantsColour(
  environment: Readonly<Record<string, string | undefined>>,
  terminal: boolean,
): boolean {
  if (environment.NO_COLOR) return false;
  const forced = environment.FORCE_COLOR;
  if (forced) return forced !== '0';
  return terminal && environment.TERM !== 'dumb';
}
