import { type Analysis, Analyst } from '../analysis/analysis.ts';
import { type CalledFiles, noCalledFiles } from '../analysis/calledFiles.ts';
import { Checker } from '../checks/check.ts';
import type { Finding } from '../checks/rule.ts';
import type { Source } from '../syntax/source.ts';
import type { FileProfile } from './fileProfile.ts';
import { notChecked } from './limits.ts';

/** What is remembered from version to version of a program under one profile: an edit then costs what it changed. */
export interface ProgramMemory {
  readonly profile: FileProfile;
  readonly analyst: Analyst;
  readonly checker: Checker;
}

export function programMemory(profile: FileProfile): ProgramMemory {
  return { profile, analyst: new Analyst(profile.profile), checker: new Checker(profile.profile) };
}

/** A program in one version under one profile: what is known about it is computed when first asked for, and kept. */
export class Program {
  readonly uri: string;
  readonly version: number;
  readonly source: Source;
  readonly profile: FileProfile;
  readonly called: CalledFiles;
  readonly analysis: Analysis;
  /** Why nobody should ask for an analysis: too large, no text; null: nothing stands against it. */
  readonly notChecked: string | null;
  readonly #analysing: Generator<void, void>;
  readonly #checking: Generator<void, readonly Finding[]>;
  #findings: readonly Finding[] | null = null;

  constructor(
    uri: string,
    version: number,
    source: Source,
    memory: ProgramMemory,
    called: CalledFiles = noCalledFiles,
  ) {
    this.uri = uri;
    this.version = version;
    this.source = source;
    this.profile = memory.profile;
    this.called = called;
    this.analysis = memory.analyst.analyse(source, called);
    this.notChecked = notChecked(source.text);
    this.#analysing = this.analysis.work();
    this.#checking = findingsOf(source, this.analysis, memory.checker);
  }

  get findings(): readonly Finding[] {
    while (!this.#findings) this.findSome();
    return this.#findings;
  }

  /** Does a piece of what the findings need, some milliseconds at most; true: all is done. */
  check(): boolean {
    if (this.notChecked === null && !this.#findings) this.findSome();
    return this.notChecked !== null || this.#findings !== null;
  }

  /** Does a piece of the analysis; true: all is done. */
  analyse(): boolean {
    return this.notChecked !== null || this.#analysing.next().done === true;
  }

  private findSome(): void {
    const step = this.#checking.next();
    if (step.done) this.#findings = step.value;
  }
}

function* findingsOf(
  source: Source,
  analysis: Analysis,
  checker: Checker,
): Generator<void, readonly Finding[]> {
  return (yield* checker.check(source, analysis)).findings;
}
