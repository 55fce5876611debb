// What `probewright check` is made of, as one script that the build leaves compiled.
export { version } from '../package.json';
export { check } from './commands/check.ts';
export { run } from './commands/run.ts';
export { nodeTerminal } from './runtime/nodeTerminal.ts';
