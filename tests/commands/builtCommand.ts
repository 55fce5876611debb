import { spawn } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/** The command line as one file that Node runs, made from the sources as they stand, in a folder of its own. */
export async function buildCommand(): Promise<{ readonly folder: string; readonly command: string }> {
  const folder = mkdtempSync(path.join(tmpdir(), 'probewright-command-'));
  const command = path.join(folder, 'probewright.mjs');
  await build({
    entryPoints: [fileURLToPath(new URL('../../server/commandLine.ts', import.meta.url))],
    outfile: command,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    mainFields: ['module', 'main'],
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);",
    },
    logLevel: 'error',
  });
  return { folder, command };
}

export interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly error: string;
}

export interface Start {
  readonly cwd: string;
  readonly input?: string;
  readonly environment?: Readonly<Record<string, string>>;
  /** Stops listening after the first piece of output, as `| head` does. */
  readonly leavesEarly?: boolean;
}

/** Runs the built command as a process of its own, with no terminal. */
export function runBuilt(command: string, argv: readonly string[], start: Start): Promise<Ended> {
  const { NO_COLOR: _no, FORCE_COLOR: _force, ...environment } = process.env;
  const child = spawn(process.execPath, [command, ...argv], {
    cwd: start.cwd,
    env: { ...environment, ...start.environment },
  });
  let out = '';
  let error = '';
  child.stdout.on('data', (piece: Buffer) => {
    out += piece.toString();
    if (start.leavesEarly) child.stdout.destroy();
  });
  child.stderr.on('data', (piece: Buffer) => {
    error += piece.toString();
  });
  child.stdin.on('error', () => {});
  child.stdin.end(start.input ?? '');
  return new Promise((settle) => child.on('close', (status) => settle({ status, out, error })));
}

/** Talks to the built server: each message is sent once the answer to the one before has come. Gives all it said. */
export function converse(
  command: string,
  argv: readonly string[],
  messages: readonly { readonly id?: number; readonly method: string; readonly params?: object }[],
): Promise<Ended> {
  const child = spawn(process.execPath, [command, ...argv]);
  const waiting = [...messages];
  let out = '';
  let error = '';
  const send = () => {
    for (let message = waiting.shift(); message; message = waiting.shift()) {
      const body = JSON.stringify({ jsonrpc: '2.0', ...message });
      child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
      if (message.id !== undefined) return;
    }
  };
  child.stdout.on('data', (piece: Buffer) => {
    out += piece.toString();
    if (/"id":\d+,"result"/.test(piece.toString())) send();
  });
  child.stderr.on('data', (piece: Buffer) => {
    error += piece.toString();
  });
  send();
  return new Promise((settle) => child.on('close', (status) => settle({ status, out, error })));
}
