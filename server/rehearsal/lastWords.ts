import type { RunRecord, Told } from './runRecord.ts';

/** Messages behind which the run wrote no work offset: one that goes on to write was not stopped by what it said. */
export function lastWords({ messages, written }: Pick<RunRecord, 'messages' | 'written'>): readonly Told[] {
  return messages.filter((said) => said.written === written.length);
}
