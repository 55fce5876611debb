// `npm run demo`: installs, builds, and does the main job on the programs of client/walkthrough/demo/.
import { install } from './install.mjs';
import { runNode } from './run.mjs';

const folder = 'client/walkthrough/demo';

install();
if (runNode('build.mjs') !== 0) process.exit(1);

show('What is wrong with the probing of these programs', ['check', folder], [0, 1]);
show(
  'How wrong each touch and each datum of one of them can be',
  ['error', `${folder}/bore-centre.ngc`],
  [0],
);
show(
  'A routine that finds the centre of a bore, written from the profile',
  ['generate', 'bore', '--profile', `${folder}/probewright.json`],
  [0],
);

console.log(`
In VS Code: open this folder, press F5 ("Run Extension") and open a program of ${folder}.
Or install it: npm run package, then code --install-extension dist/probewright.vsix`);

/** Runs one command of what was just built, as a person would type it. */
function show(title, args, expected) {
  console.log(`\n━━ ${title}\n$ probewright ${args.join(' ')}\n`);
  const code = runNode('dist/probewright.js', args);
  if (expected.includes(code)) return;
  console.error(`\nThe demo stopped: this ended with ${code}.`);
  process.exit(1);
}
