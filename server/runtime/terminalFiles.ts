import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';

interface Problem {
  readonly problem: string;
}

/** Node's files for the terminal's commands. */
export const terminalFiles = {
  look(path: string): { kind: 'file' | 'folder'; size: number } | null {
    const stats = attempt(() => statSync(path, { throwIfNoEntry: false }) ?? null);
    return stats && !('problem' in stats)
      ? { kind: stats.isDirectory() ? 'folder' : 'file', size: stats.size }
      : null;
  },

  read(path: string): { bytes: Uint8Array } | Problem {
    return attempt(() => ({ bytes: readFileSync(path) }));
  },

  write(path: string, bytes: Uint8Array): Problem | null {
    return attempt(() => {
      writeFileSync(path, bytes);
      return null;
    });
  },

  list(folder: string): { name: string; kind: 'file' | 'folder' }[] | Problem {
    return attempt(() =>
      readdirSync(folder, { withFileTypes: true })
        .map((entry) => ({
          name: entry.name,
          kind: entry.isDirectory() ? ('folder' as const) : ('file' as const),
        }))
        .sort((a, b) => (a.name < b.name ? -1 : 1)),
    );
  },
};

const words: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EPERM: 'not permitted',
  ENOENT: 'no such file or folder',
  ENOTDIR: 'a part of the path is no folder',
  EISDIR: 'is a folder',
  ENOSPC: 'no space left',
  EROFS: 'the file system is read-only',
};

function attempt<T>(action: () => T): T | Problem {
  try {
    return action();
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    return { problem: words[code] ?? (error instanceof Error ? error.message : String(error)) };
  }
}
