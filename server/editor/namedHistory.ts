import { type HistoryLine, readHistory } from '../probe/calibration/readHistory.ts';
import { fromFolderOf } from '../workspace/address.ts';
import type { FileProfile } from '../workspace/fileProfile.ts';
import type { Session } from './session.ts';

/** The history file that a profile names: as it stands, or why it cannot be read. */
export type NamedHistory =
  | {
      readonly uri: string;
      readonly name: string;
      readonly text: string;
      readonly entries: readonly HistoryLine[];
    }
  | { readonly name: string; readonly problem: string };

/** A file that is not there yet is an empty history; null: the profile names none. */
export async function namedHistory(
  { uri, profile }: Pick<FileProfile, 'uri' | 'profile'>,
  { documents, files }: Session,
): Promise<NamedHistory | null> {
  const name = profile.probe.history;
  const at = name === null || uri === null ? null : fromFolderOf(uri, name);
  if (name === null || at === null) return null;
  const text = documents.find(at)?.text.toString() ?? (await files.read(at)) ?? '';
  const read = readHistory(text);
  if ('entries' in read) return { uri: at, name, text, entries: read.entries };
  const [first] = read.problems;
  return { name, problem: `line ${first?.line ?? 0}: ${first?.message ?? 'not readable.'}` };
}
