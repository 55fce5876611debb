import {
  closeSync,
  fstatSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';

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

  readInPieces(
    path: string,
    take: (bytes: Uint8Array, last: boolean) => number,
  ): { done: boolean } | Problem {
    return attempt(() => {
      const file = openSync(path, 'r');
      try {
        return { done: takeAll(file, take) };
      } finally {
        closeSync(file);
      }
    });
  },

  write(path: string, bytes: Uint8Array): Problem | null {
    return attempt(() => {
      writeFileSync(path, bytes);
      return null;
    });
  },

  replace(path: string, bytes: Uint8Array): Problem | null {
    return attempt(() => {
      const there = statSync(path, { throwIfNoEntry: false });
      const target = there === undefined ? path : realpathSync(path);
      const beside = `${target}.${process.pid}.new`;
      try {
        writeFileSync(beside, bytes, there === undefined ? {} : { mode: there.mode });
        renameSync(beside, target);
      } catch (error) {
        rmSync(beside, { force: true });
        throw error;
      }
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

/** Small enough to stay in a processor's cache from the read to the last look at it. */
const pieceBytes = 1 << 20;

function takeAll(file: number, take: (bytes: Uint8Array, last: boolean) => number): boolean {
  const stats = fstatSync(file);
  // What is taken from a pipe is gone for who reads it whole afterwards.
  if (!stats.isFile()) return false;
  const buffer = new Uint8Array(Math.min(pieceBytes, stats.size + 1));
  let kept = 0;
  for (;;) {
    const read = readSync(file, buffer, kept, buffer.length - kept, null);
    const filled = kept + read;
    if (filled === 0) return true;
    const taken = take(buffer.subarray(0, filled), read === 0);
    if (taken === 0) return false;
    buffer.copyWithin(0, taken, filled);
    kept = filled - taken;
  }
}

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
