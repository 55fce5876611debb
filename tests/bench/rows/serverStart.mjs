// From the start of a server's process to its answer to `initialize`; beside it what Node needs to start at all.
import { median, timed } from '../processes.mjs';
import { ServerProcess, starts } from '../serverProcess.mjs';

const rounds = 9;

export async function serverStart(folder) {
  const alone = Array.from({ length: rounds }, () => timed(folder, ['--eval', '0'], [0]).seconds * 1000);
  const rows = [
    { figure: 'start and end of Node alone', value: median(alone), unit: 'ms', most: null, goal: null },
  ];
  for (const [name, args] of Object.entries(starts)) {
    const times = [];
    for (let round = 0; round < rounds; round++) times.push(await once(args));
    const figure = `start of ${name === 'commandLine' ? '`probewright serve --stdio`' : 'the language server'} to \`initialize\` answered`;
    rows.push({ figure, value: median(times), unit: 'ms', most: 150, goal: 100 });
  }
  return rows;
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
