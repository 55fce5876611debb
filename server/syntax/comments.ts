import { code } from './charCodes.ts';
import type { Scanner } from './scanner.ts';
import type { Comment, Stray } from './tree.ts';

/**
 * `( … )` or `; …`; the scanner stands at its first character. The first `)` ends a comment (NISTIR 6556 3.3.4 forbids
 * another `(` inside). Where a nested comment goes on behind that `)`, the rest of it comes as a stray.
 */
export function readComment(scanner: Scanner): readonly (Comment | Stray)[] {
  const start = scanner.at;
  if (scanner.text.charCodeAt(start) === code.semicolon) {
    scanner.at = scanner.end;
    const text = scanner.text.slice(start + 1, scanner.end);
    return [{ kind: 'comment', form: 'semicolon', text, start, end: scanner.end }];
  }
  const close = scanner.text.indexOf(')', start);
  const closed = close >= 0 && close < scanner.end;
  const end = closed ? close + 1 : scanner.end;
  const text = scanner.text.slice(start + 1, closed ? close : end);
  const comment: Comment = { kind: 'comment', form: 'parenthesis', text, start, end };
  scanner.at = end;
  if (!closed) {
    scanner.fault('unclosed-comment', { start, end });
    return [comment];
  }
  const rest = readNested(scanner, comment);
  return rest === null ? [comment] : [comment, rest];
}

function readNested(scanner: Scanner, comment: Comment): Stray | null {
  const inner = comment.text.indexOf('(');
  if (inner < 0) return null;
  const rest = nestedRest(scanner, comment);
  if (scanner.dialect.nestedCommentFault || rest !== null) {
    const start = comment.start + 1 + inner;
    scanner.fault('nested-comment', { start, end: rest?.end ?? comment.end });
  }
  if (rest !== null) scanner.at = rest.end;
  return rest;
}

/** What a nested comment has behind its first `)`, where the parentheses do balance. */
function nestedRest(scanner: Scanner, comment: Comment): Stray | null {
  let depth = comment.text.split('(').length - 1;
  for (let at = comment.end; at < scanner.end && scanner.lookahead > 0; at++, scanner.lookahead--) {
    const unit = scanner.text.charCodeAt(at);
    if (unit === code.openParenthesis) depth++;
    else if (unit === code.closeParenthesis && --depth === 0) {
      return { kind: 'stray', start: scanner.skip(comment.end), end: at + 1 };
    }
  }
  return null;
}
