import { lastWords } from './lastWords.ts';
import type { RunRecord, TouchRecord } from './runRecord.ts';

/** What the undisturbed run does, and what is nothing strange in a run with a fault therefore. */
export interface UsualRun {
  /** Lines whose messages it shows on its way. */
  readonly messages: ReadonlySet<number>;
  /** Touches that met nothing, and lines that kept the end of such a travel. */
  readonly missed: ReadonlySet<string>;
  readonly kept: ReadonlySet<number>;
}

/** `stopped`: what it said last stopped the run, and says as much in another. */
export function usualRun(record: RunRecord, stopped: boolean): UsualRun {
  const stopping = new Set(stopped ? lastWords(record) : []);
  const missed = visitsOf(record.touches).filter((_, index) => !record.touches[index]?.tripped);
  return {
    messages: new Set(record.messages.filter((said) => !stopping.has(said)).map(({ line }) => line)),
    missed: new Set(missed),
    kept: new Set(record.kept),
  };
}

/** Each touch by its line and how often that was run before: the same in two runs that go the same way. */
export function visitsOf(touches: readonly TouchRecord[]): string[] {
  const counts = new Map<number, number>();
  return touches.map(({ line }) => {
    const before = counts.get(line) ?? 0;
    counts.set(line, before + 1);
    return `${line}:${before}`;
  });
}
