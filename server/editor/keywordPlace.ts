import type { Source } from '../syntax/source.ts';
import { depthsOf } from './indentation.ts';

/** Something that was opened before a line and is not closed yet. */
export interface Open {
  readonly keyword: 'sub' | 'if' | 'while' | 'do' | 'repeat';
  /** The label as a program writes it: `o100`, `o<edge>`, `1` for DO1. */
  readonly label: string;
}

/** What is open at the start of a line, from the outside in. */
export function openBefore(source: Source, line: number): Open[] {
  return depthsOf(source, line).open.flatMap((each) => {
    const [keyword, label] = each.split(' ', 2);
    if (!label) return [];
    return { keyword: keyword as Open['keyword'], label: source.dialect.oWords ? shownLabel(label) : label };
  });
}

export function shownLabel(label: string): string {
  return /^\d+$/.test(label) ? `o${label}` : `o<${label}>`;
}
