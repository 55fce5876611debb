import type { Source } from '../syntax/source.ts';
import type { Block, Flow, OKeyword } from '../syntax/tree.ts';

/** How deep each line stands in routines, branches and loops. */
export interface Depths {
  /** Of lines that steer; a line between two of them has what the one before it leaves. */
  readonly steering: ReadonlyMap<number, { readonly own: number; readonly after: number }>;
  /** What is open behind the last line: keyword and label, from the outside in; the label is '' where it is computed. */
  readonly open: readonly string[];
  /** Everything that was opened is closed by its own end, and nothing else is. */
  readonly whole: boolean;
}

/** Depths of the lines before `end`, by their keywords. */
export function depthsOf(source: Source, end: number): Depths {
  const steering = new Map<number, { own: number; after: number }>();
  const open: string[] = [];
  let whole = true;
  for (const line of source.otherLines()) {
    if (line >= end) break;
    const before = open.length;
    let own = before;
    let steers = false;
    for (const item of source.block(line).items) {
      if (item.kind !== 'flow') continue;
      const { closes, opens } = turnOf(item, open);
      if (closes !== null) {
        const at = open.lastIndexOf(closes);
        if (at !== open.length - 1 || at < 0) whole = false;
        if (at >= 0) open.length = at;
        own = Math.min(own, open.length);
      }
      if (opens !== null) open.push(opens);
      steers ||= closes !== null || opens !== null;
    }
    if (steers) steering.set(line, { own, after: open.length });
  }
  return { steering, open, whole: whole && open.length === 0 };
}

/** Depth of one line, given those of the lines before it. */
export function depthAt({ steering }: Depths, line: number): number {
  const own = steering.get(line)?.own;
  if (own !== undefined) return own;
  let depth = 0;
  for (const [at, { after }] of steering) {
    if (at >= line) break;
    depth = after;
  }
  return depth;
}

/** Whether a block ends, or goes on with, something that was opened before it. */
export function closesSomething(block: Block): boolean {
  return block.items.some(
    (item) =>
      item.kind === 'flow' && (item.form === 'end' || (item.form === 'o-word' && item.keyword in startOf)),
  );
}

interface Turn {
  readonly closes: string | null;
  readonly opens: string | null;
}

/** What each keyword ends. */
const startOf: Partial<Record<OKeyword, string>> = {
  endsub: 'sub',
  endif: 'if',
  endwhile: 'while',
  endrepeat: 'repeat',
  else: 'if',
  elseif: 'if',
};

function turnOf(flow: Flow, open: readonly string[]): Turn {
  if (flow.form === 'while-do') return { closes: null, opens: `do ${flow.loop}` };
  if (flow.form === 'end') return { closes: `do ${flow.loop}`, opens: null };
  if (flow.form !== 'o-word') return { closes: null, opens: null };
  const { keyword, label } = flow;
  const name = (start: string) => `${start} ${label ?? ''}`;
  const start = startOf[keyword];
  if (start !== undefined) {
    const goesOn = keyword === 'else' || keyword === 'elseif';
    return { closes: name(start), opens: goesOn ? name(start) : null };
  }
  if (keyword === 'while' && open.includes(name('do'))) return { closes: name('do'), opens: null };
  const begins = ['sub', 'if', 'while', 'do', 'repeat'].includes(keyword);
  return { closes: null, opens: begins ? name(keyword) : null };
}
