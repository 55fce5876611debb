import { Buffer } from 'node:buffer';
import { run } from '../../server/commands/run.ts';
import type { ExitStatus, Files, Terminal } from '../../server/commands/terminal.ts';

export interface Ran {
  readonly status: ExitStatus;
  readonly out: string;
  readonly error: string;
  readonly served: boolean;
  /** Contents of a file afterwards. */
  file(path: string): Buffer | undefined;
}

export interface Situation {
  /** Contents by absolute path. */
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  readonly standardInput?: string | Uint8Array;
  readonly colour?: boolean;
  readonly width?: number;
}

export const cwd = '/shop';

/** A command line on files in memory. */
export async function ran(argv: readonly string[], situation: Situation = {}): Promise<Ran> {
  const { terminal, contents, written } = fakeTerminal(situation);
  let served = false;
  const serve = async () => {
    served = true;
  };
  const status = await run(argv, terminal, { version: '9.8.7', serve });
  return { status, ...written, served, file: (path) => contents.get(path) };
}

export function fakeTerminal(situation: Situation) {
  const contents = new Map(
    Object.entries(situation.files ?? {}).map(([path, text]) => [path, Buffer.from(text as string)]),
  );
  const written = { out: '', error: '' };
  const terminal: Terminal = {
    cwd,
    files: memoryFiles(contents),
    readStandardInput: async () => Buffer.from((situation.standardInput ?? '') as string),
    out: (text) => {
      written.out += text;
    },
    error: (text) => {
      written.error += text;
    },
    progress: () => {},
    colour: situation.colour ?? false,
    width: situation.width ?? 100,
  };
  return { terminal, contents, written };
}

function memoryFiles(contents: Map<string, Buffer>): Files {
  const isFolder = (path: string) => [...contents.keys()].some((each) => each.startsWith(`${path}/`));
  const write: Files['write'] = (path, bytes) => {
    if (path.includes('locked')) return { problem: 'no permission' };
    contents.set(path, Buffer.from(bytes));
    return null;
  };
  return {
    look(path) {
      const bytes = contents.get(path);
      if (bytes) return { kind: 'file', size: bytes.length };
      return isFolder(path) ? { kind: 'folder', size: 0 } : null;
    },
    read(path) {
      const bytes = contents.get(path);
      return bytes ? { bytes } : { problem: 'no such file or folder' };
    },
    open(path) {
      const bytes = contents.get(path);
      if (!bytes) return { problem: 'no such file or folder' };
      const changed = { problem: 'it was changed meanwhile' };
      return {
        read(into, from) {
          if (contents.get(path) !== bytes) return changed;
          const part = bytes.subarray(from, from + into.length);
          into.set(part);
          return part.length;
        },
        close() {},
      };
    },
    write,
    replace: write,
    list(folder) {
      const below = [...contents.keys()].filter((path) => path.startsWith(`${folder}/`));
      const names = new Set(below.map((path) => path.slice(folder.length + 1).split('/')[0] ?? ''));
      return [...names].sort().map((name) => ({
        name,
        kind: contents.has(`${folder}/${name}`) ? ('file' as const) : ('folder' as const),
      }));
    },
  };
}
