import type { Source } from '../syntax/source.ts';
import type { OKeyword } from '../syntax/tree.ts';

/** A stretch of lines that belongs together, from its first to its last line. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly kind: 'routine' | 'flow' | 'comment';
}

/** Routines, branches and loops by their keywords, and runs of comments; what does not match is left out. */
export function stretches(source: Source): Stretch[] {
  const found: Stretch[] = [];
  const open: Opened[] = [];
  const comments = new CommentRuns(source, found);
  for (const line of source.otherLines()) {
    comments.see(line);
    for (const item of source.block(line).items) {
      if (item.kind !== 'flow') continue;
      if (item.form === 'o-word') oWord(item.keyword, item.label, line, open, found);
      if (item.form === 'while-do') open.push({ name: `do ${item.loop}`, line, kind: 'flow' });
      if (item.form === 'end') close(`do ${item.loop}`, line, open, found);
    }
  }
  comments.end();
  return found.sort((a, b) => a.from - b.from || b.to - a.to);
}

interface Opened {
  readonly name: string;
  readonly line: number;
  readonly kind: 'routine' | 'flow';
}

const ends: Partial<Record<OKeyword, string>> = {
  endsub: 'sub',
  endif: 'if',
  endwhile: 'while',
  endrepeat: 'repeat',
};

function oWord(
  keyword: OKeyword,
  label: string | null,
  line: number,
  open: Opened[],
  found: Stretch[],
): void {
  const name = (start: string) => `${start} ${label}`;
  const ending = ends[keyword];
  if (ending) close(name(ending), line, open, found);
  else if (keyword === 'else' || keyword === 'elseif') {
    // The branch before it folds up to the line above.
    if (close(name('if'), line - 1, open, found)) open.push({ name: name('if'), line, kind: 'flow' });
  } else if (keyword === 'while' && open.some((each) => each.name === name('do'))) {
    close(name('do'), line, open, found);
  } else if (
    keyword === 'sub' ||
    keyword === 'if' ||
    keyword === 'while' ||
    keyword === 'do' ||
    keyword === 'repeat'
  ) {
    open.push({ name: name(keyword), line, kind: keyword === 'sub' ? 'routine' : 'flow' });
  }
}

/** Closes the innermost of that name; what was opened inside it and not closed is dropped. */
function close(name: string, line: number, open: Opened[], found: Stretch[]): boolean {
  const at = open.findLastIndex((each) => each.name === name);
  const start = open[at];
  if (!start) return false;
  open.length = at;
  if (line > start.line) found.push({ from: start.line, to: line, kind: start.kind });
  return true;
}

/** Two comment lines or more, one after the other. */
class CommentRuns {
  readonly #source: Source;
  readonly #found: Stretch[];
  #from = -2;
  #last = -2;

  constructor(source: Source, found: Stretch[]) {
    this.#source = source;
    this.#found = found;
  }

  see(line: number): void {
    if (!/^\s*[(;]/.test(this.#source.text.line(line))) return;
    const { items } = this.#source.block(line);
    if (items.length === 0 || items.some((item) => item.kind !== 'comment')) return;
    if (line !== this.#last + 1) {
      this.end();
      this.#from = line;
    }
    this.#last = line;
  }

  end(): void {
    if (this.#last > this.#from) this.#found.push({ from: this.#from, to: this.#last, kind: 'comment' });
  }
}
