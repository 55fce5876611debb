// From the start of a server's process to its answer to `initialize`; beside it what Node needs to start at all.
import { median, timed } from '../processes.mjs';
import { ServerProcess, starts } from '../serverProcess.mjs';

const rounds = 9;
const limit = 150;

/** A machine where Node alone takes more than half of the limit is judged by twice that time, of the same run. */
export async function serverStart(folder) {
  const alone = [];
  const times = Object.fromEntries(Object.keys(starts).map((name) => [name, []]));
  for (let round = 0; round < rounds; round++) {
    alone.push(timed(folder, ['--eval', '0'], [0]).seconds * 1000);
    for (const [name, args] of Object.entries(starts)) times[name].push(await once(args));
  }
  const most = Math.max(limit, 2 * median(alone));
  return [
    { figure: 'start and end of Node alone', value: median(alone), unit: 'ms', most: null, goal: null },
    ...Object.entries(times).map(([name, taken]) => {
      const figure = `start of ${name === 'commandLine' ? '`probewright serve --stdio`' : 'the language server'} to \`initialize\` answered`;
      return { figure, value: median(taken), unit: 'ms', most, goal: 100 };
    }),
  ];
}

async function once(args) {
  const start = performance.now();
  const server = new ServerProcess(args);
  const { capabilities } = await server.initialize();
  const took = performance.now() - start;
  if (!capabilities.textDocumentSync) throw new Error('The server answered with no capabilities.');
  await server.stop();
  return took;
}
