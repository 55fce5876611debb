import type { Profile } from '../../server/profile/profile.ts';
import type { Source } from '../../server/syntax/source.ts';
import { lineMutations } from './lineMutations.ts';
import { type Lines, linesOf } from './lines.ts';
import { wordMutations } from './wordMutations.ts';

/** A program with one thing in it that somebody did wrong. */
export interface Mutation {
  readonly kind: string;
  /** 0-based, of the program as it was. */
  readonly line: number;
  readonly text: string;
  /** What was done, on one line. */
  readonly said: string;
}

/** Lines `from` to before `to` become these. */
export interface LineEdit {
  readonly kind: string;
  readonly from: number;
  readonly to: number;
  readonly lines: readonly string[];
}

/** Every single mutation of the kinds below, at every place where it can apply; a text that comes up twice counts once. */
export function mutationsOf(source: Source, profile: Profile, results: readonly string[] = []): Mutation[] {
  const lines = linesOf(source);
  const edits = [...lineMutations(lines), ...wordMutations(lines, profile, results)];
  const seen = new Set<string>();
  return edits.flatMap((edit) => {
    const text = edited(lines, edit);
    if (seen.size === seen.add(text).size) return [];
    const was = lines.texts.slice(edit.from, edit.to).join(' | ');
    return [
      { kind: edit.kind, line: edit.from, text, said: `${edit.kind}: ${was} -> ${edit.lines.join(' | ')}` },
    ];
  });
}

function edited({ texts }: Lines, { from, to, lines }: LineEdit): string {
  return [...texts.slice(0, from), ...lines, ...texts.slice(to)].join('\n');
}
