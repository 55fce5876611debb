import { code, isDigit, isLetter } from './charCodes.ts';
import { plainName, readBracket, readBracketed, readParameter } from './expressions.ts';
import { digitsAt } from './numbers.ts';
import type { Scanner } from './scanner.ts';
import { readRest, readStrayLetters } from './strays.ts';
import type { Expression, OKeyword, OWordFlow, Span, Stray } from './tree.ts';

const keywords: ReadonlySet<string> = new Set<OKeyword>([
  ...(['sub', 'endsub', 'call', 'return', 'if', 'elseif', 'else', 'endif'] as const),
  ...(['while', 'endwhile', 'do', 'repeat', 'endrepeat', 'break', 'continue'] as const),
]);

interface Label {
  readonly label: string | null;
  readonly labelExpression?: Expression;
  readonly labelSpan: Span;
}

/** `o100 sub`, `o<name> call [1]`, `o1 if [#5070 EQ 0]` (common practice); the scanner stands at the `o`. */
export function readOWord(scanner: Scanner): readonly (OWordFlow | Stray)[] {
  const start = scanner.at;
  const label = readLabel(scanner);
  if (label === null) return [{ kind: 'stray', start, end: scanner.end }];
  const found = findKeyword(scanner);
  const labelled = label.label !== null || label.labelExpression !== undefined;
  if (found.keyword === null) {
    if (isProgramNumber(scanner, label)) return [readRest(scanner, start, 'program-number')];
    return [
      labelled
        ? readRest(scanner, start, 'unknown-keyword', found.written)
        : readStrayLetters(scanner, start),
    ];
  }
  if (!labelled) scanner.fault('missing-label', label.labelSpan);
  const keywordSpan = { start: found.start, end: found.end };
  scanner.at = found.end;
  const { values, end, rest } = readArguments(scanner, found.keyword, keywordSpan);
  const flow: OWordFlow = {
    kind: 'flow',
    form: 'o-word',
    keyword: found.keyword,
    keywordSpan,
    ...label,
    arguments: values,
    start,
    end,
  };
  return rest === null ? [flow] : [flow, rest];
}

/** Null, with a fault, where a name is not closed: the rest of the line belongs to it. */
function readLabel(scanner: Scanner): Label | null {
  const start = scanner.at;
  const labelled = (label: string | null, end: number): Label => {
    scanner.at = end;
    return { label, labelSpan: { start, end } };
  };
  scanner.at++;
  const unit = scanner.peek();
  if (unit === code.less) {
    const close = scanner.text.indexOf('>', scanner.at);
    if (close >= 0 && close < scanner.end) {
      return labelled(plainName(scanner.text.slice(scanner.at + 1, close)), close + 1);
    }
    scanner.fault('unclosed-name', { start, end: scanner.end });
    scanner.at = scanner.end;
    return null;
  }
  if (isDigit(unit)) {
    const { digits, end } = digitsAt(scanner, scanner.at);
    return labelled(digits.replace(/^0+(?=\d)/, ''), end);
  }
  if (unit === code.hash || unit === code.openBracket) {
    const labelExpression = unit === code.hash ? readParameter(scanner) : readBracket(scanner);
    return { ...labelled(null, labelExpression.end), labelExpression };
  }
  return labelled(null, start + 1);
}

/** `O1000` with nothing behind it but comments begins a program of the macro family. */
function isProgramNumber(scanner: Scanner, { label, labelSpan }: Label): boolean {
  const next = scanner.look(labelSpan.end);
  const ends = Number.isNaN(next) || next === code.openParenthesis || next === code.semicolon;
  return ends && label !== null && /^\d+$/.test(label);
}

interface FoundKeyword extends Span {
  readonly keyword: OKeyword | null;
  readonly written: string;
}

/** A keyword written together, else one with blanks between its letters. */
function findKeyword(scanner: Scanner): FoundKeyword {
  scanner.peek();
  const start = scanner.at;
  let end = start;
  while (end < scanner.end && isLetter(scanner.text.charCodeAt(end))) end++;
  const written = scanner.text.slice(start, end).toLowerCase();
  if (isKeyword(written)) return { keyword: written, written, start, end };
  const spread = spreadLetters(scanner, start);
  if (isKeyword(spread.letters)) return { keyword: spread.letters, written, start, end: spread.end };
  return { keyword: null, written, start, end };
}

function spreadLetters(scanner: Scanner, from: number): { readonly letters: string; readonly end: number } {
  let letters = '';
  let end = from;
  for (let at = from; at < scanner.end && letters.length < 12; at = scanner.skip(at + 1)) {
    if (!isLetter(scanner.text.charCodeAt(at))) break;
    letters += scanner.text.charAt(at).toLowerCase();
    end = at + 1;
  }
  return { letters, end };
}

function isKeyword(letters: string): letters is OKeyword {
  return keywords.has(letters);
}

interface Arguments {
  readonly values: readonly Expression[];
  readonly end: number;
  readonly rest: Stray | null;
}

function readArguments(scanner: Scanner, keyword: OKeyword, span: Span): Arguments {
  if (keyword === 'call') return readCallArguments(scanner, span);
  if (keyword === 'if' || keyword === 'elseif' || keyword === 'while' || keyword === 'repeat') {
    return readCondition(scanner, keyword, span);
  }
  const takesValue = keyword === 'return' || keyword === 'endsub';
  if (!takesValue || scanner.peek() !== code.openBracket) return { values: [], end: span.end, rest: null };
  const value = readBracket(scanner);
  return { values: [value], end: value.end, rest: null };
}

function readCallArguments(scanner: Scanner, span: Span): Arguments {
  const values: Expression[] = [];
  while (scanner.peek() === code.openBracket) values.push(readBracket(scanner));
  const end = values.at(-1)?.end ?? span.end;
  const next = scanner.peek();
  const bare = isDigit(next) || next === code.hash || next === code.point || next === code.minus;
  return { values, end, rest: bare ? readRest(scanner, scanner.at, 'missing-brackets') : null };
}

/** A condition or count in brackets; without brackets it is read all the same, with a fault. */
function readCondition(scanner: Scanner, keyword: OKeyword, span: Span): Arguments {
  const value = readBracketed(scanner);
  if (value !== null) return { values: [value], end: scanner.at, rest: null };
  scanner.at = span.end;
  scanner.fault('missing-condition', span, keyword);
  return { values: [], end: span.end, rest: null };
}
