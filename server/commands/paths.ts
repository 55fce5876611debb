import { relative } from 'node:path';

/** A path as reports show it: from where the reader is, with forward slashes. */
export function shownPath(cwd: string, absolute: string): string {
  const path = relative(cwd, absolute);
  return (path === '' ? '.' : path).replaceAll('\\', '/');
}
