// Starts VS Code's server with fresh data folders, and a browser with a fresh profile on it.
import { spawn } from 'node:child_process';
import { createWriteStream, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium } from 'playwright-core';

// Quiet, offline and repeatable: no gallery, telemetry, updates, welcome page or trust prompt.
const quietSettings = {
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'workbench.enableExperiments': false,
  'workbench.settings.enableNaturalLanguageSearch': false,
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'security.workspace.trust.enabled': false,
  'git.enabled': false,
  // The browser's VS Code saves by itself, and a test's change would reach the next test.
  'files.autoSave': 'off',
  'chat.disableAIFeatures': true,
};

/**
 * Starts a server that listens on loopback. `host`: the folder that installHost gives; `packages`: .vsix files to
 * install first; `tests`: let a page start extension tests; `settings`: user settings; `log`: a file for its output.
 */
export async function startServer({ host, packages = [], tests = false, settings = {}, log }) {
  const folder = mkdtempSync(path.join(tmpdir(), 'probewright-host-'));
  const data = path.join(folder, 'data');
  const extensions = path.join(folder, 'extensions');
  for (const made of [path.join(data, 'User'), path.join(data, 'Machine'), extensions])
    mkdirSync(made, { recursive: true });
  const userSettings = JSON.stringify({ ...quietSettings, ...settings }, null, 2);
  writeFileSync(path.join(data, 'User', 'settings.json'), userSettings);

  const main = path.join(host, 'lib', 'vscode', 'out', 'server-main.js');
  const output = log ? createWriteStream(log, { flags: 'a' }) : undefined;
  const folders = ['--server-data-dir', folder, '--user-data-dir', data, '--extensions-dir', extensions];
  const always = ['--accept-server-license-terms', '--telemetry-level', 'off'];
  // An empty gallery is no gallery; the runtime folder keeps the server's sockets inside ours.
  const env = { ...process.env, EXTENSIONS_GALLERY: '{}', XDG_RUNTIME_DIR: folder };
  const start = (args) => {
    const child = spawn(process.execPath, [main, ...folders, ...always, ...args], {
      cwd: folder,
      env,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    child.said = '';
    for (const stream of [child.stdout, child.stderr])
      stream.on('data', (text) => {
        child.said += text;
        output?.write(text);
      });
    return child;
  };

  for (const file of packages) {
    const installer = start(['--install-extension', path.resolve(file), '--force']);
    const code = await new Promise((resolve) => installer.once('exit', resolve));
    if (code !== 0) throw new Error(`VS Code did not install ${file} (exit ${code}):\n${installer.said}`);
  }

  const port = await freePort();
  const server = start([
    '--host',
    '127.0.0.1',
    '--port',
    String(port),
    '--without-connection-token',
    ...(tests ? ['--enable-smoke-test-driver'] : []),
  ]);
  const end = () => server.kill();
  process.once('exit', end);
  await listening(server);
  return {
    folder,
    extensions,
    authority: `127.0.0.1:${port}`,
    url: `http://127.0.0.1:${port}/`,
    async stop() {
      process.off('exit', end);
      if (server.exitCode === null) {
        const gone = new Promise((resolve) => server.once('exit', resolve));
        server.kill('SIGTERM');
        await gone;
      }
      output?.end();
      rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

/** Opens a page in a fresh Chromium that resolves no name and reaches loopback alone. */
export async function startBrowser(executablePath) {
  const profile = mkdtempSync(path.join(tmpdir(), 'probewright-browser-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath,
    headless: true,
    viewport: { width: 1280, height: 800 },
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      '--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1',
    ],
  });
  return {
    page: context.pages()[0] ?? (await context.newPage()),
    async stop() {
      await context.close();
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    },
  };
}

function listening(server) {
  return new Promise((resolve, reject) => {
    const timer = setTimeout(
      () => reject(new Error(`VS Code's server did not start:\n${server.said}`)),
      60_000,
    );
    server.once('exit', (code) => {
      clearTimeout(timer);
      reject(new Error(`VS Code's server ended (${code}):\n${server.said}`));
    });
    server.stdout.on('data', () => {
      if (!server.said.includes('agent listening on')) return;
      clearTimeout(timer);
      resolve();
    });
  });
}

function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer().once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}
