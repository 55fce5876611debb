import { readFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { Files } from '../workspace/files.ts';

/** Node's own files, for clients that offer none. An address that is no file's has no files. */
export const nodeFiles: Files = {
  async read(uri) {
    const path = pathOf(uri);
    return path === null ? null : readText(path);
  },

  async findUpwards(uri, name) {
    let folder = pathOf(uri);
    while (folder !== null) {
      const above = dirname(folder);
      if (above === folder) return null;
      const path = join(above, name);
      const text = await readText(path);
      if (text !== null) return { uri: pathToFileURL(path).href, text };
      folder = above;
    }
    return null;
  },
};

function pathOf(uri: string): string | null {
  try {
    return fileURLToPath(uri);
  } catch {
    return null;
  }
}

async function readText(path: string): Promise<string | null> {
  try {
    return await readFile(path, 'utf8');
  } catch (error) {
    if (isMissing(error)) return null;
    throw error;
  }
}

/** A folder of that name counts as no file; anything else (no permission) is for the person to know. */
function isMissing(error: unknown): boolean {
  const code = error instanceof Error && 'code' in error ? error.code : '';
  return code === 'ENOENT' || code === 'ENOTDIR' || code === 'EISDIR' || code === 'ENAMETOOLONG';
}
