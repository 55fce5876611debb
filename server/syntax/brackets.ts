import { code } from './charCodes.ts';
import type { Scanner } from './scanner.ts';

/**
 * Moves behind the `]` that ends the bracket opened at `open`, its contents read up to `inner`; the end of the bracket,
 * with a fault where it has none.
 */
export function closeBracket(scanner: Scanner, open: number, inner: number): number {
  if (scanner.peek() === code.closeBracket) return ++scanner.at;
  const close = matchingClose(scanner, scanner.at);
  if (close < 0) {
    scanner.at = Math.max(inner, open + 1);
    scanner.fault('unclosed-bracket', { start: open, end: scanner.at });
    return scanner.at;
  }
  const odd = { start: scanner.at, end: close };
  scanner.fault('unexpected-character', odd, scanner.text.slice(odd.start, odd.end).trimEnd());
  scanner.at = close + 1;
  return scanner.at;
}

/** Where the bracket that is open at `from` ends, looking only so far ahead; -1 where it does not. */
function matchingClose(scanner: Scanner, from: number): number {
  let depth = 0;
  for (let at = from; at < scanner.end && scanner.lookahead > 0; at++, scanner.lookahead--) {
    const unit = scanner.text.charCodeAt(at);
    if (unit === code.openBracket) depth++;
    else if (unit === code.semicolon) return -1;
    else if (unit === code.openParenthesis) {
      at = scanner.text.indexOf(')', at);
      if (at < 0) return -1;
    } else if (unit === code.closeBracket && depth-- === 0) return at;
  }
  return -1;
}
