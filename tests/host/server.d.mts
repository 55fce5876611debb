import type { Page } from 'playwright-core';

/** Opens a page in a fresh Chromium that resolves no name and reaches loopback alone. */
export function startBrowser(executablePath: string): Promise<{ readonly page: Page; stop(): Promise<void> }>;
