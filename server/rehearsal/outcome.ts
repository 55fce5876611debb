import { type Expectation, errorsOf, type FoundError } from './expectations.ts';
import { lastWords } from './lastWords.ts';
import type { RunRecord } from './runRecord.ts';

/** Worst first. */
export const outcomeNames = [
  'collision',
  'wrong-datum',
  'endless',
  'contact-stop',
  'message-stop',
  'datum-right',
  'completed',
] as const;

export type OutcomeName = (typeof outcomeNames)[number];

/** Those that a program must not come to. */
export const worst: readonly OutcomeName[] = ['collision', 'wrong-datum', 'endless'];

export interface Outcome {
  readonly name: OutcomeName;
  /** 0-based line of the joined program where it was decided. */
  readonly line: number;
  /** Written − true by key, mm. */
  readonly errors: ReadonlyMap<string, number>;
  /** Keys beyond their tolerance, with the lines that wrote them. */
  readonly wrong: readonly {
    readonly key: string;
    readonly line: number | null;
    readonly error: number | null;
  }[];
  /** Keys that were expected and never written. */
  readonly unwritten: readonly string[];
  /** An alarm, or a message that this run shows and the undisturbed one does not, ended it. */
  readonly stopped: boolean;
}

/** The tolerance's last digit is not to hang on rounding. */
const rounding = 1e-9;

export interface Circumstances {
  readonly partAbsent: boolean;
  /** Lines whose messages the undisturbed run shows on its way; they stop nothing. null: this is that run. */
  readonly usual: ReadonlySet<number> | null;
  /** Whether the program writes work offsets where it gets to the end of its work. */
  readonly writesDatums: () => boolean;
}

/** The worst that happened in a run. */
export function outcomeOf(
  record: RunRecord,
  expectations: readonly Expectation[],
  circumstances: Circumstances,
): Outcome {
  const { partAbsent } = circumstances;
  const found = errorsOf(expectations, record);
  const errors = new Map(found.map(({ expectation, error }) => [expectation.key, error]));
  const unwritten = expectations.map(({ key }) => key).filter((key) => !errors.has(key));
  const stopped = isStopped(record, unwritten, circumstances);
  const wrong = stopped ? [] : partAbsent ? writtenBlind(record) : beyond(found);
  const { end } = record;
  const name = ((): OutcomeName => {
    if (record.collisions.length > 0) return 'collision';
    if (wrong.length > 0) return 'wrong-datum';
    if (end.kind === 'endless') return 'endless';
    if (stopped) return record.inContact ? 'contact-stop' : 'message-stop';
    return expectations.length > 0 && unwritten.length === 0 && !partAbsent ? 'datum-right' : 'completed';
  })();
  const line = name === 'wrong-datum' ? (wrong[0]?.line ?? end.line) : end.line;
  return { name, line, errors, wrong, unwritten, stopped };
}

function isStopped(
  record: RunRecord,
  unwritten: readonly string[],
  { usual, writesDatums }: Circumstances,
): boolean {
  const { kind } = record.end;
  if (kind === 'alarm' || kind === 'stop' || kind === 'not-followed') return true;
  if (kind !== 'program-end') return false;
  const last = lastWords(record);
  if (usual !== null) return last.some(({ line }) => !usual.has(line));
  if (last.length === 0) return false;
  return unwritten.length > 0 || (record.written.length === 0 && writesDatums());
}

function beyond(found: readonly FoundError[]): Outcome['wrong'] {
  return found
    .filter(({ expectation, error }) => !(Math.abs(error) <= expectation.tolerance + rounding))
    .map(({ expectation, error, line }) => ({ key: expectation.key, line, error }));
}

/** With no part there, nothing that is written behind a touch can be right. */
function writtenBlind(record: RunRecord): Outcome['wrong'] {
  return record.written
    .filter(({ touches }) => touches > 0)
    .map(({ key, line }) => ({ key, line, error: null }));
}
