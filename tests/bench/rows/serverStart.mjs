// From the start of a server's process to its answer to `initialize`.
import { median } from '../processes.mjs';
import { ServerProcess, starts } from '../serverProcess.mjs';

const rounds = 9;

export async function serverStart() {
  const rows = [];
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
