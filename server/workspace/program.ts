import { type Analysis, analyse } from '../analysis/analysis.ts';
import type { CalledFiles } from '../analysis/calledFiles.ts';
import { check } from '../checks/check.ts';
import type { Finding } from '../checks/rule.ts';
import type { Source } from '../syntax/source.ts';
import type { FileProfile } from './fileProfile.ts';
import { notChecked } from './limits.ts';

/** A program in one version under one profile: what is known about it is computed when first asked for, and kept. */
export class Program {
  readonly uri: string;
  readonly version: number;
  readonly source: Source;
  readonly profile: FileProfile;
  readonly called: CalledFiles;
  /** Why nobody should ask for an analysis: too large, no text; null: nothing stands against it. */
  readonly notChecked: string | null;
  #analysis: Analysis | null = null;
  #findings: readonly Finding[] | null = null;

  constructor(uri: string, version: number, source: Source, profile: FileProfile, called: CalledFiles) {
    this.uri = uri;
    this.version = version;
    this.source = source;
    this.profile = profile;
    this.called = called;
    this.notChecked = notChecked(source.text);
  }

  get analysis(): Analysis {
    this.#analysis ??= analyse(this.source, this.profile.profile, this.called);
    return this.#analysis;
  }

  get findings(): readonly Finding[] {
    this.#findings ??= check(this.source, this.analysis, this.profile.profile).findings;
    return this.#findings;
  }
}
