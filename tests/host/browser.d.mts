/** The path of a Chromium: named by CHROMIUM, else on this machine, else Debian's, installed now. Throws a sentence. */
export function findBrowser(): string;
