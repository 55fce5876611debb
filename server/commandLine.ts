#!/usr/bin/env node
import { readCompiledCheck } from './runtime/compiledCheck.ts';

// A reader that has seen enough (`| head`) is no fault.
process.stdout.on('error', (error: Error & { code?: string }) => {
  if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
  throw error;
});

const argv = process.argv.slice(2);
const isPlainServe = argv[0] === 'serve' && argv[1] === '--stdio' && !argv.some(isHelp);

// An editor waits for the server: what reads command lines is not loaded for it.
void (isPlainServe ? serve() : command()).catch(fault);

async function serve(): Promise<void> {
  const [{ version }, { startOnStdio }] = await Promise.all([
    import('../package.json'),
    import('./runtime/startServer.ts'),
  ]);
  return startOnStdio(version);
}

/** Its exit status is set, not exited with: output that is still on its way gets there. */
async function command(): Promise<void> {
  const compiled = argv[0] === 'check' ? readCompiledCheck(new URL('parts/', import.meta.url)) : null;
  const { run, nodeTerminal, version, check } = compiled ?? (await loaded());
  process.exitCode = await run(argv, nodeTerminal(process), { version, serve, check });
}

async function loaded() {
  const [{ run }, { nodeTerminal }, { version }] = await Promise.all([
    import('./commands/run.ts'),
    import('./runtime/nodeTerminal.ts'),
    import('../package.json'),
  ]);
  return { run, nodeTerminal, version, check: undefined };
}

function isHelp(argument: string): boolean {
  return argument === '--help' || argument === '-h';
}

/** What no command foresaw is a fault of ours; a stack trace is for who asks for it. */
function fault(error: unknown): void {
  const stack = error instanceof Error ? error.stack : String(error);
  const said = process.env.PROBEWRIGHT_TRACE ? stack : `${error}. PROBEWRIGHT_TRACE=1 shows where.`;
  process.stderr.write(`probewright: a fault in Probewright itself, not in your program: ${said}\n`);
  process.exitCode = 2;
}
