import type { Span } from '../syntax/tree.ts';

/** The span of an expression without the brackets around it, which the tree counts in. */
export function bareSpan({ start, end }: Span, text: string): Span {
  let from = start;
  let to = end;
  for (let at = start; at < end && /[[\s]/.test(text.charAt(at)); at++) {
    from = at + 1;
    if (text.charAt(at) === '[') to = text.slice(from, to).lastIndexOf(']') + from;
  }
  while (to > from && /\s/.test(text.charAt(to - 1))) to--;
  return to < from ? { start, end } : { start: from, end: to };
}
