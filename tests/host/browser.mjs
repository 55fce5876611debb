// Finds the browser that shows VS Code in the tests, and installs one where that is allowed.
import { spawnSync } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import path from 'node:path';

const names =
  process.platform === 'win32' ? ['chromium.exe', 'chrome.exe'] : ['chromium', 'chromium-browser'];
const usualPlaces = {
  darwin: ['/Applications/Chromium.app/Contents/MacOS/Chromium', '/opt/homebrew/bin/chromium'],
  linux: ['/usr/bin/chromium', '/snap/bin/chromium'],
};

/** The path of a Chromium: named by CHROMIUM, else on this machine, else Debian's, installed now. Throws a sentence. */
export function findBrowser() {
  const named = process.env.CHROMIUM;
  if (named) {
    if (canRun(named)) return named;
    throw new Error(`CHROMIUM names ${named}, which is no program that can be started here.`);
  }
  const found = browserOnMachine();
  if (found) return found;
  if (canInstall()) installDebianChromium();
  const installed = browserOnMachine();
  if (installed) return installed;
  throw new Error(
    'The tests inside VS Code need a Chromium and found none. Install one (Debian: apt-get install chromium) or name it ' +
      'in the environment variable CHROMIUM. All other tests run without it: npm run test:unit',
  );
}

function browserOnMachine() {
  const folders = (process.env.PATH ?? '').split(path.delimiter).filter(Boolean);
  const onPath = folders.flatMap((folder) => names.map((name) => path.join(folder, name)));
  return [...onPath, ...(usualPlaces[process.platform] ?? [])].find(canRun);
}

function canRun(file) {
  try {
    accessSync(file, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function canInstall() {
  return process.getuid?.() === 0 && spawnSync('apt-get', ['--version']).status === 0;
}

function installDebianChromium() {
  console.log("Installing Debian's chromium for the tests inside VS Code …");
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const options = { env, stdio: ['ignore', 'ignore', 'inherit'] };
  spawnSync('apt-get', ['-qq', 'update'], options);
  spawnSync('apt-get', ['-qq', 'install', '-y', '--no-install-recommends', 'chromium'], options);
}
