import type { Source } from '../syntax/source.ts';
import type { OKeyword } from '../syntax/tree.ts';

/** Something that was opened before a line and is not closed yet. */
export interface Open {
  readonly keyword: 'sub' | 'if' | 'while' | 'do' | 'repeat';
  /** The label as a program writes it: `o100`, `o<edge>`, `1` for DO1. */
  readonly label: string;
}

const starts: ReadonlySet<string> = new Set(['sub', 'if', 'while', 'do', 'repeat']);
const ends: ReadonlyMap<OKeyword, string> = new Map([
  ['endsub', 'sub'],
  ['endif', 'if'],
  ['endwhile', 'while'],
  ['endrepeat', 'repeat'],
]);

/** What is open at the start of a line, from the outside in. */
export function openBefore(source: Source, line: number): Open[] {
  const open: Open[] = [];
  const close = (keyword: string, label: string) => {
    const at = open.findLastIndex((each) => each.keyword === keyword && each.label === label);
    if (at >= 0) open.length = at;
    return at >= 0;
  };
  for (const at of source.otherLines()) {
    if (at >= line) break;
    for (const item of source.block(at).items) {
      if (item.kind !== 'flow') continue;
      if (item.form === 'while-do') open.push({ keyword: 'do', label: String(item.loop) });
      else if (item.form === 'end') close('do', String(item.loop));
      else if (item.form === 'o-word' && item.label !== null) {
        const label = shownLabel(item.label);
        const end = ends.get(item.keyword);
        if (end !== undefined) close(end, label);
        else if (item.keyword === 'while' && close('do', label)) continue;
        else if (starts.has(item.keyword)) open.push({ keyword: item.keyword as Open['keyword'], label });
      }
    }
  }
  return open;
}

export function shownLabel(label: string): string {
  return /^\d+$/.test(label) ? `o${label}` : `o<${label}>`;
}
