import { printable } from './style.ts';

/** `line 12`, `line 12 of edge.ngc` where that is a called file. `line` is 0-based. */
export function lineName({ line, file }: { readonly line: number; readonly file: string | null }): string {
  return `line ${line + 1}${file === null ? '' : ` of ${printable(file)}`}`;
}
