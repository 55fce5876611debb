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

  open(path: string): OpenFile | Problem {
    return attempt(() => new OpenFile(openSync(path, 'r')));
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

/** A file that somebody writes to meanwhile is two files in one; one that is replaced by another stays what it was. */
class OpenFile {
  readonly #file: number;
  readonly #written: number;

  constructor(file: number) {
    this.#file = file;
    this.#written = this.#lastWritten();
  }

  read(into: Uint8Array, from: number): number | Problem {
    return attempt(() => {
      let filled = 0;
      while (filled < into.length) {
        const read = readSync(this.#file, into, filled, into.length - filled, from + filled);
        if (read === 0) break;
        filled += read;
      }
      return this.#lastWritten() === this.#written ? filled : { problem: 'it was changed meanwhile' };
    });
  }

  close(): void {
    closeSync(this.#file);
  }

  #lastWritten(): number {
    return fstatSync(this.#file).mtimeMs;
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
