// Runs the suite of tests/host/suite once, in the extension host of a VS Code server driven by a browser.
import { cpSync, createWriteStream, mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { format } from 'node:util';
import { startBrowser, startServer } from './server.mjs';

// A test asks for keys and clicks by saying so: only the browser can do them.
const wish = /^(?:keyboard|mouse) (types|presses|clicks) (.+)$/;
const closing = /^(\d+) passed, (\d+) failed$/;

// What the workbench says of itself; it stays in the log.
const workbenchNoise = new RegExp(
  [
    'bindings file',
    'watchdog',
    'Creation of workbench contribution',
    'Service Worker',
    'Creating a socket',
    'onnection token',
    'from gallery',
    'builtin extensions cache',
    'ChatSessionStore',
    '^\\[(reconnection|AgentHost|AccountPolicy)',
    '^Canceled',
    // The Markdown preview looks for a file system behind every page, and ours have none.
    '^CodeExpectedError',
    '^Extension host \\(Remote\\) is (un)?responsive',
  ].join('|'),
);

/**
 * Gives `{ passed, failed }`. `development`: the folder of the extension, or `packaged`: its .vsix; `suite`: the bundled
 * index; `workspace`: a folder, opened as a copy; `logs`: a folder for the logs and a picture of the end.
 */
export async function runSuite({
  host,
  browserPath,
  development,
  packaged,
  suite,
  workspace,
  logs,
  seconds = 480,
}) {
  mkdirSync(logs, { recursive: true });
  const server = await startServer({
    host,
    tests: true,
    packages: packaged ? [packaged] : [],
    log: path.join(logs, 'server.log'),
  });
  let browser;
  try {
    const folder = path.join(server.folder, 'workspace');
    cpSync(workspace, folder, { recursive: true });
    browser = await startBrowser(browserPath);
    const remote = (file) => `vscode-remote://${server.authority}${path.resolve(file)}`;
    const address = new URL(server.url);
    address.searchParams.set('folder', folder);
    address.searchParams.set(
      'payload',
      JSON.stringify([
        ['extensionDevelopmentPath', remote(development ?? emptyExtension(server.folder))],
        ['extensionTestsPath', remote(suite)],
        ['skipWelcome', 'true'],
      ]),
    );
    const end = await followPage(browser.page, address.href, { logs, seconds });
    await browser.page.screenshot({ path: path.join(logs, 'end.png') }).catch(() => {});
    return verdict(end);
  } finally {
    await browser?.stop();
    await server.stop();
  }
}

/** VS Code starts no tests without an extension in development, so a packaged one is tested beside an empty one. */
function emptyExtension(folder) {
  const empty = path.join(folder, 'empty');
  mkdirSync(empty);
  const manifest = { name: 'empty', publisher: 'empty', version: '0.0.0', engines: { vscode: '*' } };
  writeFileSync(path.join(empty, 'package.json'), JSON.stringify(manifest));
  return empty;
}

/** Resolves with the exit code that the workbench reports and the last closing line that the suite printed. */
async function followPage(page, address, { logs, seconds }) {
  const log = createWriteStream(path.join(logs, 'workbench.log'));
  let lastLine = null;
  let done = Promise.resolve();
  const ended = new Promise((resolve) => {
    const timer = setTimeout(() => resolve({ code: `no end after ${seconds} s` }), seconds * 1000);
    const finish = (code) => {
      clearTimeout(timer);
      resolve({ code });
    };
    page.once('crash', () => finish('the page crashed'));
    page.exposeFunction('codeAutomationExit', finish);
  });
  await page.exposeFunction('codeAutomationLog', (type, args) => {
    const text = format(...args);
    log.write(`${type} ${text}\n`);
    const [, verb, words] = text.match(wish) ?? [];
    if (verb === 'clicks') done = done.then(() => click(page, words));
    else if (verb) done = done.then(() => answer(page, verb, words));
    else if (closing.test(text)) lastLine = text;
    else if (!workbenchNoise.test(text)) console.log(text);
  });
  await page.goto(address, { waitUntil: 'commit', timeout: 120_000 });
  const { code } = await ended;
  log.end();
  return { code, lastLine };
}

/** Keys go into the open question, never into the program. */
async function answer(page, verb, keys) {
  await page.locator('.quick-input-widget:visible input').first().waitFor();
  if (verb === 'types') await page.keyboard.type(keys);
  else await page.keyboard.press(keys);
}

/** A button of one of our pages: each stands in a frame within a frame. The test itself tells whether it did anything. */
async function click(page, words) {
  for (let left = 100; left > 0; left--) {
    for (const frame of page.frames()) {
      const button = frame.getByRole('button', { name: words, exact: true }).first();
      if (await button.isVisible().catch(() => false)) return button.click();
    }
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  console.log(`no button to click: ${words}`);
}

/** An extension host that dies is reported as exit code 0: only the suite's own closing line is believed. */
function verdict({ code, lastLine }) {
  const [, passed, failed] = (lastLine?.match(closing) ?? []).map(Number);
  if (passed === undefined) {
    console.error(`The suite printed no closing line (exit: ${code}): did the extension host die?`);
    return { passed: 0, failed: 1 };
  }
  if (code !== 0 && failed === 0) {
    console.error(`The suite passed, but VS Code ended with: ${code}`);
    return { passed, failed: 1 };
  }
  if (passed + failed === 0) console.error('The suite ran no test.');
  return { passed, failed: passed === 0 ? Math.max(failed, 1) : failed };
}
