#!/usr/bin/env node
import { version } from '../package.json';
import { run } from './commands/run.ts';
import { nodeTerminal } from './runtime/nodeTerminal.ts';

// A reader that has seen enough (`| head`) is no fault.
process.stdout.on('error', (error: Error & { code?: string }) => {
  if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
  throw error;
});

const serve = async () => {
  const { startOnStdio } = await import('./runtime/nodeLanguageServer.ts');
  await startOnStdio(version);
};

// Set, not exited with: output that is still on its way gets there.
process.exitCode = await run(process.argv.slice(2), nodeTerminal(process), { version, serve }).catch(fault);

/** What no command foresaw is a fault of ours; a stack trace is for who asks for it. */
function fault(error: unknown): 2 {
  const stack = error instanceof Error ? error.stack : String(error);
  const said = process.env.PROBEWRIGHT_TRACE ? stack : `${error}. PROBEWRIGHT_TRACE=1 shows where.`;
  process.stderr.write(`probewright: a fault in Probewright itself, not in your program: ${said}\n`);
  return 2;
}
