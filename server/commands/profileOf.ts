import { dirname, join, resolve } from 'node:path';
import { ruleIds } from '../checks/registry.ts';
import { type ProfileProblem, readProfile } from '../profile/profile.ts';
import { profileName } from '../workspace/documentKind.ts';
import { type FileProfile, noProfileFile } from '../workspace/fileProfile.ts';
import { shownPath } from './paths.ts';
import { decodeProgram } from './programText.ts';
import type { Terminal } from './terminal.ts';

/** The profile of each program, or what is wrong with its file, a sentence a fault. */
export type ProfileOf = (program: string | null) => FileProfile | { readonly faults: readonly string[] };

/** @param named the profile that the person named, for every program; null: the nearest file upwards of each */
export function profiles(named: string | null, terminal: Terminal): ProfileOf {
  const read = new Map<string, ReturnType<ProfileOf>>();
  const once = (path: string) => {
    const known = read.get(path) ?? readAt(path, terminal);
    read.set(path, known);
    return known;
  };
  if (named !== null) {
    const path = resolve(terminal.cwd, named);
    if (terminal.files.look(path)?.kind !== 'file')
      return () => ({
        faults: [`${named}: no such profile. Name a file like ${profileName}, or leave --profile out.`],
      });
    return () => once(path);
  }
  return (program) => {
    const path = nearestProfile(program === null ? terminal.cwd : dirname(program), terminal);
    return path === null ? noProfileFile : once(path);
  };
}

/** Absolute path of the profile that counts in a folder; null: there is none. */
export function nearestProfile(folder: string, terminal: Terminal): string | null {
  const path = join(folder, profileName);
  if (terminal.files.look(path)?.kind === 'file') return path;
  const above = dirname(folder);
  return above === folder ? null : nearestProfile(above, terminal);
}

function readAt(path: string, terminal: Terminal): ReturnType<ProfileOf> {
  const shown = shownPath(terminal.cwd, path);
  const read = terminal.files.read(path);
  if ('problem' in read) return { faults: [`${shown}: the profile cannot be read: ${read.problem}.`] };
  const decoded = decodeProgram(read.bytes);
  if (decoded === null) return { faults: [`${shown}: the profile is no text. It is JSON with comments.`] };
  const { profile, problems } = readProfile(decoded.text, { path: shown, ruleIds });
  return profile === null
    ? { faults: problems.map((problem) => faultText(shown, problem)) }
    : { uri: shown, profile, problems };
}

function faultText(shown: string, { line, start, message }: ProfileProblem): string {
  return `${shown}:${line + 1}:${start + 1}: ${message}`;
}
