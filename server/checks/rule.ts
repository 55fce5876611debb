import type { Analysis } from '../analysis/analysis.ts';
import type { Profile } from '../profile/profile.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import type { Block } from '../syntax/tree.ts';

export type Severity = 'error' | 'warning' | 'info';

/** Replaces from (line, start) up to (endLine, end); 0-based lines, UTF-16 offsets. */
export interface Edit {
  readonly line: number;
  readonly start: number;
  readonly endLine: number;
  readonly end: number;
  readonly text: string;
}

export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
  /** A fix that changes motion is offered one at a time, never as part of fix-all. */
  readonly changesMotion: boolean;
}

export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly place: Place;
  readonly related: readonly { readonly message: string; readonly place: Place }[];
  readonly fixes: readonly Fix[];
}

/** What a rule says: the runner adds id and severity. */
export interface Report {
  readonly message: string;
  readonly place: Place;
  readonly related?: Finding['related'];
  readonly fixes?: readonly Fix[];
  /** Less than the rule's own severity, e.g. where the number rests on built-in values. */
  readonly severity?: Severity;
}

/** A program with a profile (JSON text) where it needs one; run as a test. */
export interface Example {
  readonly dialect: DialectName;
  readonly program: string;
  readonly profile?: string;
  /** Where calls are looked for: all that stands beside the program, by the name of the call. Not given: nobody looks. */
  readonly files?: Readonly<Record<string, string>>;
}

export interface CheckContext {
  readonly analysis: Analysis;
  readonly profile: Profile;
  /** The profile or a comment names the dialect, or the text has flow, names or touches that only this one has. */
  isDialectCertain(): boolean;
}

/** One rule, one file: its page is part of it. */
export interface Rule {
  readonly id: string;
  readonly severity: Severity;
  /** One line, as a heading. */
  readonly title: string;
  /** What it reports, in Markdown. */
  readonly what: string;
  /** What happens at the machine if it is ignored. */
  readonly why: string;
  /** What to write instead. */
  readonly instead: string;
  readonly fails: readonly Example[];
  readonly passes: readonly Example[];
  /** The standard and section, or "common practice, no source". */
  readonly source: string;
  /** Over the whole program, where the rule asks the analysis; undefined: work may pause here. */
  readonly check?: (context: CheckContext) => Iterable<Report | undefined>;
  /**
   * Over one block, where the rule needs nothing else but the dialect and its certainty, and the profile: what it says is
   * kept until the block changes. Plain blocks (`Source.classOf` 1) have no such fault.
   */
  readonly checkBlock?: (block: Block, line: number, context: CheckContext) => Iterable<Report>;
}
