// `npm run shots`: installs the packaged extension, opens the demo workspace, and pictures what a person sees.
//   node tests/host/shots.mjs [name…]     only the named ones; light or dark by PROBEWRIGHT_THEME
import { execFileSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { root } from '../../.scripts/run.mjs';
import { findBrowser } from './browser.mjs';
import { installHost } from './install.mjs';
import { startBrowser, startServer } from './server.mjs';

const wanted = process.argv.slice(2);
const folder = path.join(root, '.work/shots');
mkdirSync(folder, { recursive: true });

const server = await startServer({
  host: installHost(),
  packages: [path.join(root, 'dist/probewright.vsix')],
  settings: {
    'editor.hover.delay': 100,
    'window.commandCenter': false,
    ...(process.env.PROBEWRIGHT_THEME && { 'workbench.colorTheme': process.env.PROBEWRIGHT_THEME }),
  },
});
const browser = await startBrowser(findBrowser());
const { page } = browser;
page.setDefaultTimeout(60_000);

const shots = {
  async problems() {
    await open('edges-in-a-hurry.ngc');
    await page.waitForSelector('.squiggly-error');
    await page.keyboard.press('Control+Shift+M');
    await page.waitForSelector('.markers-panel .monaco-list-row');
    await take('problems');
    await page.keyboard.press('Control+Shift+M');
  },

  async hover() {
    await open('bore-centre.ngc');
    await hoverWord('G38.2', 'F50');
    await take('hover-touch');
    await open('boss-inch.ngc');
    await hoverWord('G38.2', 'F1.97');
    await take('hover-touch-inch');
    await open('top-face.ngc');
    await hoverWord('G10', 'L2');
    await take('hover-datum');
    await hoverWord('G90', 'G21');
    await take('hover-word');
  },

  async notes() {
    await open('corner-two-edges.ngc');
    await page.locator('.codelens-decoration', { hasText: 'touches' }).first().waitFor();
    await page.waitForTimeout(2000);
    await take('notes');
    await open('bore-test-too-early.nc');
    await page.locator('.codelens-decoration', { hasText: 'touch' }).first().waitFor();
    await page.waitForTimeout(2000);
    await take('notes-macro');
  },

  async fix() {
    await open('edges-in-a-hurry.ngc');
    await page.waitForSelector('.squiggly-error');
    await wordIn('G38.2', 'X5').click();
    await page.keyboard.press('Control+.');
    await page.waitForSelector('.action-widget .monaco-list-row');
    await take('fix-list');
    await page.keyboard.press('Escape');
  },

  async complete() {
    await open('top-face.ngc');
    await wordIn('G0', 'Z20').click();
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Control+Space');
    await page.waitForSelector('.suggest-widget .monaco-list-row');
    await take('completion');
    await page.keyboard.press('Escape');
  },

  async generate() {
    await open('top-face.ngc');
    await wordIn('G0', 'Z25').click();
    await page.keyboard.press('End');
    await command('probewright.writeRoutine');
    const question = page.locator('.quick-input-widget:visible');
    await question.locator('.monaco-list-row', { hasText: 'Bore' }).first().click();
    for (let step = 1; step <= 12 && (await question.count()) > 0; step++) {
      await take(`generate-${step}`);
      await page.keyboard.press('Enter');
      await page.waitForTimeout(1500);
    }
    await question.waitFor({ state: 'hidden' });
    await take('generate-done');
  },

  /** A block that was written before the last calibration. */
  async aged() {
    await open('probewright.json');
    await open('old-bore.ngc');
    await page.locator('.codelens-decoration', { hasText: 'Bring it up to date' }).first().waitFor();
    await take('aged');
    await page.locator('.codelens-decoration a', { hasText: 'Bring it up to date' }).first().click();
    await page.waitForTimeout(3000);
    await take('aged-updated');
  },

  async link() {
    await open('edges-in-a-hurry.ngc');
    await page.waitForSelector('.squiggly-error');
    await wordIn('G38.2', 'X5').hover();
    const link = page.locator('.monaco-hover:visible a', { hasText: 'overtravel-exceeded' }).first();
    await link.waitFor();
    await take('hover-finding');
    await link.click();
    await page.waitForSelector('iframe.webview.ready');
    await page.waitForTimeout(2000);
    await take('link');
    await page.keyboard.press('Control+W');
  },

  async explain() {
    await open('edges-in-a-hurry.ngc');
    await page.waitForSelector('.squiggly-error');
    await wordIn('G38.2', 'X5').click();
    await command('probewright.explainRule');
    await page.locator('.quick-input-list .monaco-list-row').first().waitFor();
    await take('explain-which');
    await page.keyboard.press('Enter');
    await page.waitForSelector('iframe.webview.ready');
    await page.waitForTimeout(3000);
    await take('explain');
    await page.keyboard.press('Control+W');
  },

  async allow() {
    await open('bore-quick.ngc');
    await page.waitForSelector('.squiggly-error');
    await wordIn('G38.2', 'X29').click();
    await page.keyboard.press('Control+.');
    const allow = page.locator('.action-widget .monaco-list-row.focused', { hasText: 'because' });
    await page.waitForSelector('.action-widget .monaco-list-row.focused');
    for (let row = 0; row < 9 && (await allow.count()) === 0; row++) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.locator('.quick-input-widget:visible').waitFor();
    await page.keyboard.type('the wall is of foam');
    await take('allow-reason');
    await page.keyboard.press('Enter');
    await page.waitForTimeout(1500);
    await take('allow-done');
  },

  async rehearsal() {
    await open('bore-centre.ngc');
    await command('probewright.rehearse');
    await page.waitForSelector('iframe.webview.ready');
    await page.waitForTimeout(4000);
    await take('rehearsal');
    await page.mouse.move(1000, 500);
    await page.mouse.wheel(0, 600);
    await take('rehearsal-below');
    await open('top-face.ngc');
    await command('probewright.rehearse');
    const row = page.locator('.quick-input-widget:visible .monaco-list-row', { hasText: 'Propose' }).first();
    await row.waitFor();
    await take('rehearsal-without-setup');
    await row.click();
    await page.locator('.tab.active', { hasText: 'top-face.setup.json' }).waitFor();
    await page.waitForTimeout(2000);
    await take('rehearsal-proposed');
  },

  async routines() {
    await open('bore-centre.ngc');
    await command('probewright.showRoutines');
    await page.waitForSelector('iframe.webview.ready');
    await page.waitForTimeout(3000);
    await take('routines');
  },

  async calibration() {
    await open('ring-touches.csv');
    await command('probewright.calibrate');
    const question = page.locator('.quick-input-widget:visible');
    await question.locator('.monaco-list-row', { hasText: 'ring' }).first().waitFor();
    await take('calibration-what');
    await page.keyboard.press('Enter');
    for (const answer of ['50.001', '0.001']) {
      await page.waitForTimeout(800);
      await page.keyboard.type(answer);
      await page.keyboard.press('Enter');
    }
    await page.waitForSelector('iframe.webview.ready');
    await page.waitForTimeout(3000);
    await take('calibration');
    await page.getByRole('button', { name: 'Put it into probewright.json' }).first().click();
    await page.locator('.tab.active', { hasText: 'probewright.json' }).waitFor();
    await take('calibration-in-profile');
    await open('bore-centre.ngc');
    await command('probewright.showProbe');
    await page.waitForTimeout(3000);
    await take('probe');
    // Over the page of the probe, which stands left of the calibration.
    await page.mouse.move(580, 500);
    await page.mouse.wheel(0, 700);
    await page.waitForTimeout(500);
    await take('probe-history');
    await open('bore-centre.ngc');
    await command('probewright.showErrors');
    await page.waitForTimeout(800);
    await page.keyboard.type('0.01');
    await page.keyboard.press('Enter');
    await page.waitForTimeout(3000);
    await take('errors');
    await page.mouse.move(1000, 500);
    await page.mouse.wheel(0, 1100);
    await page.waitForTimeout(500);
    await take('errors-budget');
    await open('ring-check.csv');
    await command('probewright.verifyCalibration');
    await question.locator('.monaco-list-row', { hasText: 'ring' }).first().waitFor();
    await page.keyboard.press('Enter');
    for (const answer of ['50.001', '0.001']) {
      await page.waitForTimeout(800);
      await page.keyboard.type(answer);
      await page.keyboard.press('Enter');
    }
    await page.waitForTimeout(3000);
    await take('verification');
    await command('probewright.planCalibration');
    await question.locator('.monaco-list-row', { hasText: 'ring' }).first().waitFor();
    for (let step = 1; step <= 3; step++) {
      await page.keyboard.press('Enter');
      await page.waitForTimeout(800);
    }
    await page.waitForTimeout(3000);
    await take('calibration-plan');
  },

  async profile() {
    await open('top-face.ngc');
    await command('probewright.showEffectiveProfile');
    await page.waitForSelector('iframe.webview.ready');
    await page.waitForTimeout(3000);
    await take('effective-profile');
    await page.keyboard.press('Control+W');
    await open('probewright.json');
    await page.locator('.view-line', { hasText: '"repeatability"' }).locator('span span').nth(1).hover();
    await page.locator('.monaco-hover:visible').first().waitFor();
    await take('profile-key');
  },

  async walkthrough() {
    await page.keyboard.press('F1');
    await page.locator('.quick-input-widget input').fill('>Open Walkthrough');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'Walkthrough' }).first().click();
    await page.locator('.quick-input-widget input').fill('Start with Probewright');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: 'Probewright' }).first().click();
    await page.waitForTimeout(3000);
    await take('walkthrough');
  },
};

let failed = 0;
try {
  const workspace = path.join(server.folder, 'pump-housing');
  cpSync(path.join(root, 'client/walkthrough/demo'), workspace, { recursive: true });
  writeAgedBlock(workspace);
  await page.goto(`${server.url}?folder=${encodeURIComponent(workspace)}`, {
    waitUntil: 'commit',
    timeout: 120_000,
  });
  await page.waitForSelector('.monaco-workbench .explorer-viewlet .monaco-list-row');
  for (const [name, shot] of Object.entries(shots)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    await shot().catch(async (error) => {
      failed++;
      console.error(`${name}: ${error.message}`);
      await take(`${name}-failed`);
    });
    for (const _ of '123') await page.keyboard.press('Escape');
  }
} finally {
  await browser.stop();
  await server.stop();
}
process.exit(failed === 0 ? 0 : 1);

function writeAgedBlock(workspace) {
  const profile = path.join(server.folder, 'before.json');
  const now = readFileSync(path.join(workspace, 'probewright.json'), 'utf8');
  writeFileSync(profile, now.replace(/(?<="effectiveDiameter": *)[\d.]+/, '5.9'));
  const program = path.join(root, 'dist/probewright.js');
  execFileSync(process.execPath, [
    program,
    ...['generate', 'bore', '--profile', profile, '-o', path.join(workspace, 'old-bore.ngc')],
  ]);
}

async function take(name) {
  await page.waitForTimeout(600);
  const file = path.join(folder, `${name}.png`);
  await page.screenshot({ path: file });
  console.log(path.relative(root, file));
}

async function open(name) {
  await page.keyboard.press('Control+P');
  await page.locator('.quick-input-widget input').fill(name);
  await page.locator('.quick-input-list .monaco-list-row', { hasText: name }).first().click();
  await page.locator('.tab.active', { hasText: name }).waitFor();
  await page.locator('.editor-instance .view-line').first().waitFor();
}

/** Until the server is up there is nothing to hover: tried again. */
async function hoverWord(word, alsoInLine) {
  const hover = page.locator('.monaco-hover:visible .hover-contents:not(:has-text("Loading..."))').first();
  for (let attempt = 1; ; attempt++) {
    await page.mouse.move(5, 5);
    await page.waitForTimeout(500);
    await wordIn(word, alsoInLine).hover();
    const shown = await hover.waitFor({ timeout: 5000 }).then(
      () => true,
      (error) => attempt === 10 && Promise.reject(error),
    );
    if (shown) return;
  }
}

/** The first shown line that holds both words, at the first of them; colours may cut it into pieces. */
function wordIn(word, alsoInLine) {
  const line = page.locator('.view-line').filter({ hasText: word }).filter({ hasText: alsoInLine }).first();
  return line
    .locator('span span')
    .filter({ hasText: word.slice(0, 2) })
    .first();
}

async function command(id) {
  const { contributes } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
  const found = contributes.commands.find((each) => each.command === id);
  const title = found.category ? `${found.category}: ${found.title}` : found.title;
  await page.keyboard.press('F1');
  await page.locator('.quick-input-widget input').fill(`>${title}`);
  await page.locator('.quick-input-list .monaco-list-row', { hasText: title }).first().click();
}
