import { join, resolve } from 'node:path';
import { programEndings } from '../workspace/documentKind.ts';
import { shownPath } from './paths.ts';
import type { Terminal } from './terminal.ts';

/** A program to read; `-` is standard input, which has no path. */
export interface ProgramPath {
  readonly shown: string;
  /** null: standard input. */
  readonly absolute: string | null;
  /** Found by walking a folder, not named by the person. */
  readonly walked: boolean;
}

/** Folders by these names, and any that begins with a dot, hold no programs of the person's. */
const skippedFolders = new Set(['node_modules']);

/** Every program that the arguments name, each once, folders walked for the known endings; or what is wrong with them. */
export function programPaths(
  names: readonly string[],
  terminal: Terminal,
): { readonly paths: readonly ProgramPath[] } | { readonly problems: readonly string[] } {
  const found = new Map<string, ProgramPath>();
  const problems: string[] = [];
  for (const name of names) {
    const paths = name === '-' ? [standardInput] : pathsOf(name, terminal);
    if (typeof paths === 'string') problems.push(paths);
    else for (const path of paths) if (!found.has(path.shown)) found.set(path.shown, path);
  }
  return problems.length > 0 ? { problems } : { paths: [...found.values()] };
}

const standardInput: ProgramPath = { shown: '-', absolute: null, walked: false };

function pathsOf(name: string, terminal: Terminal): readonly ProgramPath[] | string {
  const absolute = resolve(terminal.cwd, name);
  const look = terminal.files.look(absolute);
  if (look === null) return `${name}: no such file or folder. Paths are read from ${terminal.cwd}.`;
  if (look.kind === 'file') return [{ shown: shownPath(terminal.cwd, absolute), absolute, walked: false }];
  const walked: ProgramPath[] = [];
  const problem = walk(absolute, terminal, walked);
  if (problem !== null) return problem;
  if (walked.length > 0) return walked;
  return `${name}: no program in this folder. Known endings: ${programEndings.map((ending) => `.${ending}`).join(' ')}; name a file itself to have it read whatever its ending.`;
}

function walk(folder: string, terminal: Terminal, found: ProgramPath[]): string | null {
  const entries = terminal.files.list(folder);
  if ('problem' in entries)
    return `${shownPath(terminal.cwd, folder)}: cannot be listed: ${entries.problem}.`;
  for (const { name, kind } of entries) {
    const absolute = join(folder, name);
    if (kind === 'file') {
      const ending = /\.([^.]+)$/.exec(name)?.[1]?.toLowerCase();
      if (ending !== undefined && programEndings.includes(ending))
        found.push({ shown: shownPath(terminal.cwd, absolute), absolute, walked: true });
    } else if (!name.startsWith('.') && !skippedFolders.has(name)) {
      const problem = walk(absolute, terminal, found);
      if (problem !== null) return problem;
    }
  }
  return null;
}
