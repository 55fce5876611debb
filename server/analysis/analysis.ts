import type { Profile } from '../profile/profile.ts';
import type { Dialect } from '../syntax/dialect.ts';
import type { Source } from '../syntax/source.ts';
import { Bookkeeping } from './bookkeeping.ts';
import { CallChains } from './callChains.ts';
import { type CalledFiles, noCalledFiles } from './calledFiles.ts';
import type { Workbench } from './follow.ts';
import { FollowedText } from './followedText.ts';
import { FoundBefore } from './foundBefore.ts';
import type { Graph } from './graph.ts';
import type {
  AlarmExit,
  Datum,
  Departure,
  Descent,
  FailedUse,
  FlowFault,
  Handover,
  Modes,
  NotKnown,
  PlaceLeftOut,
  PositionTest,
  StaleRead,
  Touch,
  UntestedUse,
} from './model.ts';
import { Passages } from './passages.ts';
import type { Procedures } from './procedures.ts';
import { VersionAnalysis } from './versionAnalysis.ts';

/**
 * What is known of a program along every path through it, called files included. Touches, departures, uses and datums
 * are those whose blocks stand in the program itself; what stands in a called file is that file's to report.
 */
export interface Analysis {
  readonly source: Source;
  readonly procedures: Procedures;
  /** The flow of each of them, in their order. */
  readonly graphs: readonly Graph[];
  readonly called: CalledFiles;
  readonly touches: readonly Touch[];
  readonly departures: readonly Departure[];
  /** What comes next after a guarded move that nothing tested, and would go wrong where it stopped short. */
  readonly unguardedMoves: readonly Departure[];
  readonly untestedUses: readonly UntestedUse[];
  readonly failedUses: readonly FailedUse[];
  readonly alarmExits: readonly AlarmExit[];
  /** Latched coordinates read after their meaning had changed, in the order of the text. */
  readonly staleReads: readonly StaleRead[];
  /** Conditions that ask where a touch latched or came to rest, in the order of the text. */
  readonly positionTests: readonly PositionTest[];
  /** Plain motions down of blocks that are not plain, and of those where the tip may rest on a surface. */
  readonly descents: readonly Descent[];
  readonly datums: readonly Datum[];
  /** Numbers that G10 L2 writes where the axis stands at a place that touches gave. */
  readonly placesLeftOut: readonly PlaceLeftOut[];
  /** Values derived from touches that are left in parameters for somebody to read; their targets are the parameters. */
  readonly storedResults: readonly Datum[];
  /** Finds them, for `storedResults` to have them at hand; yields where it may pause. */
  findStored(): Generator<undefined, void>;
  /** Where subroutines of the program give back, and where it ends. */
  readonly handovers: readonly Handover[];
  /** What the program's calls reach in other files, places counted in those. */
  readonly elsewhere: {
    readonly touches: readonly Touch[];
    readonly datums: readonly Datum[];
    /** What comes next after those touches, places counted in the program: where it stands there, or behind another call. */
    readonly departures: readonly Departure[];
    /** Results of those touches that the program itself uses, places counted in it. */
    readonly untestedUses: readonly UntestedUse[];
    /** Those that it uses on the failing side of its own test of the touch. */
    readonly failedUses: readonly FailedUse[];
  };
  readonly flowFaults: readonly FlowFault[];
  /** Where the analysis stopped following: said aloud, never an empty list without a word. */
  readonly notKnown: readonly NotKnown[];
  /** What holds before the line (0-based) runs, joined over all paths; null where no path gets there. */
  stateAt(line: number): StateView | null;
  /**
   * What a parameter (`#100`, `#<name>`) is made of before or behind the line (0-based), as datums that have it as their
   * target: one for each way in which paths make it, none where no touch enters it.
   */
  derivedAt(line: number, name: string, when: 'before' | 'behind'): readonly Datum[];
  /** Does piece by piece what touches, datums and findings rest on; who asks for those has it done at once. */
  work(): Generator<void, void>;
}

export interface StateView {
  readonly modes: Modes;
  /** mm/min where known. */
  readonly feed: number | null;
  /** Program units, work coordinates; null where not known. */
  readonly position: Readonly<Record<'x' | 'y' | 'z', number | null>>;
  /** `#100`, `100`, `#<name>` or `name`; null where its value is not known. */
  parameter(name: string): number | null;
}

/**
 * Analyses a program with the profile of its probe. Never throws on any text; bounded in steps. Nothing is followed
 * before somebody asks: a file of another language, or one without touches, costs no more than its flow.
 */
export function analyse(source: Source, profile: Profile, called: CalledFiles = noCalledFiles): Analysis {
  return new Analyst(profile).analyse(source, called);
}

/**
 * Analyses version after version of one program under one profile. What it remembers of one version serves the next, so
 * that an edit costs what it changed; what it finds is what a fresh analyst finds.
 */
export class Analyst {
  #bench: Workbench | null = null;
  #dialect: Dialect | null = null;

  constructor(readonly profile: Profile) {}

  /** As `analyse`. Versions may be asked in any order; going on to another and back costs their difference. */
  analyse(source: Source, called: CalledFiles = noCalledFiles): Analysis {
    return new VersionAnalysis(source, called, this);
  }

  /** What the versions in a dialect are followed with. */
  bench(dialect: Dialect): Workbench {
    return this.#bench && this.#dialect === dialect ? this.#bench : this.clearedBench(dialect);
  }

  /** The same with nothing remembered. */
  clearedBench(dialect: Dialect): Workbench {
    const text = new FollowedText();
    const chains = new CallChains();
    const books = new Bookkeeping(this.profile, chains, dialect.name);
    this.#bench = { text, chains, books, passages: new Passages(text, books), found: new FoundBefore(text) };
    this.#dialect = dialect;
    return this.#bench;
  }

  /** Blocks that were run or read again so far; a run taken as one step counts once. What edits cost. */
  get blocksRun(): number {
    return this.#bench?.passages.blocksRun ?? 0;
  }

  /** Chunks that were come by so far, whether anything was run in them or not. */
  get chunksPassed(): number {
    return this.#bench?.passages.chunksPassed ?? 0;
  }
}
