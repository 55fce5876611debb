import { builtInProfile } from '../profile/profile.ts';
import { profileName } from './documentKind.ts';
import { type FileProfile, fileProfile, noProfileFile } from './fileProfile.ts';
import type { Files } from './files.ts';

/** Not every folder is watched (one outside of the workspace is not): what was found is looked up again after this, ms. */
const freshFor = 2000;

interface Found {
  readonly at: number;
  readonly profile: Promise<FileProfile>;
}

/**
 * The profile of each program: the nearest file upwards, as it stands in the editor where it is open. The same text
 * gives the same object, so that what was computed with it can be kept.
 */
export class Profiles {
  readonly #files: Files;
  readonly #openText: (uri: string) => string | null;
  readonly #now: () => number;
  readonly #found = new Map<string, Found>();
  readonly #read = new Map<string, { readonly text: string; readonly profile: FileProfile }>();

  /**
   * @param openText the text of an open document, null where it is not open
   * @param now milliseconds, from anywhere
   */
  constructor(files: Files, openText: (uri: string) => string | null, now: () => number) {
    this.#files = files;
    this.#openText = openText;
    this.#now = now;
  }

  of(uri: string): Promise<FileProfile> {
    const folder = uri.slice(0, uri.lastIndexOf('/') + 1) || uri;
    const known = this.#found.get(folder);
    if (known && this.#now() - known.at < freshFor) return known.profile;
    const profile = this.#find(uri);
    this.#found.set(folder, { at: this.#now(), profile });
    return profile;
  }

  /** A profile file was written, changed in the editor, created, moved or deleted somewhere. */
  forget(): void {
    this.#found.clear();
  }

  /** What a profile file says, given its text. */
  read(uri: string, text: string): FileProfile {
    const known = this.#read.get(uri);
    if (known?.text === text) return known.profile;
    const profile = fileProfile(uri, text);
    this.#read.set(uri, { text, profile });
    return profile;
  }

  /** What a profile file says now; null: it is gone. */
  async reread(uri: string): Promise<FileProfile | null> {
    const text = this.#openText(uri) ?? (await this.#files.read(uri));
    return text === null ? null : this.read(uri, text);
  }

  async #find(uri: string): Promise<FileProfile> {
    try {
      const found = await this.#files.findUpwards(uri, profileName);
      return found === null ? noProfileFile : this.read(found.uri, this.#openText(found.uri) ?? found.text);
    } catch (error) {
      return unreadable(error instanceof Error ? error.message : String(error));
    }
  }
}

function unreadable(reason: string): FileProfile {
  const message = `it can't be read: ${reason}`;
  const problem = { key: '', message, line: 0, start: 0, endLine: 0, end: 0 };
  return { uri: null, profile: builtInProfile, problems: [problem] };
}
