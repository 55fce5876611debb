#!/usr/bin/env node
import { version } from '../package.json';
import { startOnStdio } from './runtime/startServer.ts';

// A reader that has seen enough (`| head`) is no fault.
process.stdout.on('error', (error: Error & { code?: string }) => {
  if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
  throw error;
});

const argv = process.argv.slice(2);
const serve = () => startOnStdio(version);
const isPlainServe = argv[0] === 'serve' && argv[1] === '--stdio' && !argv.some(isHelp);

// An editor waits for the server: what reads command lines is not loaded for it.
void (isPlainServe ? serve() : command()).catch(fault);

/** Its exit status is set, not exited with: output that is still on its way gets there. */
async function command(): Promise<void> {
  const { run, nodeTerminal, check } = (argv[0] === 'check' ? await compiled() : null) ?? (await loaded());
  process.exitCode = await run(argv, nodeTerminal(process), { version, serve, check });
}

async function compiled() {
  const { readCompiledCheck } = await import('./runtime/compiledCheck.ts');
  return readCompiledCheck();
}

async function loaded() {
  const [{ run }, { nodeTerminal }] = await Promise.all([
    import('./commands/run.ts'),
    import('./runtime/nodeTerminal.ts'),
  ]);
  return { run, nodeTerminal, check: undefined };
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
