import { programEndings } from '../workspace/documentKind.ts';

/** Files that a call can lead to: programs by their endings, and numbered ones without. */
export const programGlobs: readonly string[] = [`**/*.{${programEndings.join()}}`, '**/O[0-9]*'];
