import { ruleIds } from '../checks/registry.ts';
import { builtInProfile, type Profile, type ProfileProblem, readProfile } from '../profile/profile.ts';

/** The profile that holds for a program, and what is wrong with its file. */
export interface FileProfile {
  /** null: no file, the built-in values. */
  readonly uri: string | null;
  /** The built-in values while the file has problems: whoever uses them has to say so. */
  readonly profile: Profile;
  readonly problems: readonly ProfileProblem[];
}

export const noProfileFile: FileProfile = { uri: null, profile: builtInProfile, problems: [] };

export function fileProfile(uri: string, text: string): FileProfile {
  const read = readProfile(text, { path: pathOf(uri), ruleIds });
  return { uri, profile: read.profile ?? builtInProfile, problems: read.problems };
}

/** As a person reads it: the path of a file, else the address as it is. */
export function pathOf(uri: string): string {
  const path = /^[a-z][a-z0-9+.-]*:(?:\/\/[^/]*)?(\/.*)$/i.exec(uri)?.[1];
  if (path === undefined) return uri;
  try {
    return decodeURIComponent(path).replace(/^\/([a-z]:)/i, '$1');
  } catch {
    return path;
  }
}
