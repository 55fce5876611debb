import axe from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { findBrowser } from '../browser.mjs';
import { startBrowser } from '../server.mjs';
import { type ThemeName, themes } from './themes.ts';

/** What axe-core finds wrong with a page: rule, what it is about, and where. */
export type ReadThrough = (html: string, theme: ThemeName) => Promise<string[]>;

/** One browser for the tests of a file; a page in it has the colours that VS Code hands to a webview. */
export function readingPages(): ReadThrough {
  let browser: Awaited<ReturnType<typeof startBrowser>>;
  beforeAll(async () => {
    browser = await startBrowser(findBrowser());
  }, 60_000);
  afterAll(() => browser.stop());
  return (html, theme) => faultsOf(browser.page, html, theme);
}

/** A page around a part of one. */
export function pageAround(body: string): string {
  return `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>A page</title></head><body><main><h1>A page</h1>${body}</main></body></html>`;
}

async function faultsOf(page: Page, html: string, theme: ThemeName): Promise<string[]> {
  const { isDark, colours } = themes[theme];
  await page.emulateMedia({ colorScheme: isDark ? 'dark' : 'light' });
  await page.setContent(html, { waitUntil: 'load' });
  await page.evaluate(putOn, colours);
  await page.evaluate(axe.source);
  return page.evaluate(findFaults);
}

/** Runs in the page; VS Code sets its colours on the root in the same way, and the body's ground by a sheet of its own. */
function putOn(colours: Readonly<Record<string, string>>): void {
  const { documentElement, body } = (globalThis as unknown as InPage).document;
  for (const [name, colour] of Object.entries(colours))
    documentElement.style.setProperty(`--vscode-${name}`, colour);
  body.style.backgroundColor = 'var(--vscode-editor-background)';
  body.style.color ||= 'var(--vscode-foreground)';
}

/** Runs in the page. */
async function findFaults(): Promise<string[]> {
  const { violations } = await (globalThis as unknown as InPage).axe.run();
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ html, failureSummary }) => `${id}: ${help}: ${html}\n${failureSummary ?? ''}`),
  );
}

/** As far as the functions above need it: the sources of the tests know no browser. */
interface InPage {
  readonly axe: typeof axe;
  readonly document: {
    readonly documentElement: { readonly style: { setProperty(name: string, value: string): void } };
    readonly body: { readonly style: { backgroundColor: string; color: string } };
  };
}
