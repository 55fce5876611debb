import type { FileRename, WorkspaceEdit } from 'vscode-languageserver';
import { comparable } from '../workspace/address.ts';

/** How long a person may look at a preview before the edit is carried out, ms. */
const validFor = 60_000;

/**
 * Files that an edit of ours is about to rename: the client asks what else changes with them, and all of it stands in
 * that edit already.
 */
export class OfferedRenames {
  readonly #now: () => number;
  readonly #offered = new Map<string, number>();

  constructor(now: () => number) {
    this.#now = now;
  }

  offer({ documentChanges }: WorkspaceEdit): void {
    for (const change of documentChanges ?? [])
      if ('kind' in change && change.kind === 'rename') this.#offered.set(keyOf(change), this.#now());
  }

  /** True once for each that was offered. */
  take(file: FileRename): boolean {
    const at = this.#offered.get(keyOf(file));
    this.#offered.delete(keyOf(file));
    return at !== undefined && this.#now() - at < validFor;
  }
}

function keyOf({ oldUri, newUri }: FileRename): string {
  return `${comparable(oldUri)} ${comparable(newUri)}`;
}
