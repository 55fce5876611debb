import { closeBracket } from './brackets.ts';
import { code, isDigit, isLetter, isSign } from './charCodes.ts';
import { readNumber } from './numbers.ts';
import { type FoundOperator, findOperator, valueMayBegin } from './operators.ts';
import { buildTree, type Chain } from './precedence.ts';
import type { Scanner } from './scanner.ts';
import type { Expression, FunctionName, ParameterExpression } from './tree.ts';

/**
 * A real value: number, `[expression]`, parameter or function (NISTIR 6556 App. E), or a sign before one of the last
 * three, which is outside that grammar and commonly written. Null, without a fault, where none begins.
 */
export function readValue(scanner: Scanner): Expression | null {
  const unit = scanner.peek();
  scanner.height = 1;
  if (unit === code.hash) return readParameter(scanner);
  if (unit === code.openBracket) return readBracket(scanner);
  if (isDigit(unit) || unit === code.point) return readNumber(scanner);
  if (isSign(unit)) return readSigned(scanner);
  return isLetter(unit) ? readFunction(scanner) : null;
}

/** `[ … ]`; the scanner stands at the `[`. */
export function readBracket(scanner: Scanner): Expression {
  const start = scanner.at;
  if (!scanner.enter()) return { kind: 'bad', start, end: scanner.end };
  scanner.at++;
  const inner = readChain(scanner);
  const height = scanner.height;
  const end = closeBracket(scanner, start, inner.end);
  scanner.leave();
  scanner.height = height;
  return { ...inner, start, end };
}

/**
 * A value that should stand in brackets, such as a condition; without them it is read all the same, up to a bracket that
 * closes nothing, with one fault. Null, without a fault, where no value begins.
 */
export function readBracketed(scanner: Scanner): Expression | null {
  const bracketed = scanner.peek() === code.openBracket;
  const first = readValue(scanner);
  if (first === null) return null;
  const value = readOpenChain(scanner, first);
  if (bracketed && value === first) return value;
  const end = scanner.peek() === code.closeBracket ? scanner.at + 1 : value.end;
  scanner.at = end;
  scanner.fault('missing-brackets', { start: value.start, end }, scanner.text.slice(value.start, end));
  return { ...value, end };
}

/** Values with operators between them, up to where no operator follows. A missing value is a fault. */
export function readChain(scanner: Scanner): Expression {
  const chain: Chain = { operands: [], heights: [], operators: [] };
  for (;;) {
    chain.operands.push(readValue(scanner) ?? missingOperand(scanner));
    chain.heights.push(scanner.height);
    const found = findOperator(scanner);
    if (found === null) return buildTree(scanner, chain);
    takeOperator(scanner, chain, found);
  }
}

/** A chain outside brackets: it goes on only where an operator with a value behind it follows. */
export function readOpenChain(scanner: Scanner, first: Expression): Expression {
  const chain: Chain = { operands: [first], heights: [scanner.height], operators: [] };
  for (;;) {
    const before = scanner.at;
    const found = findOperator(scanner);
    if (found === null || !valueMayBegin(scanner, found.end)) {
      scanner.at = before;
      return buildTree(scanner, chain);
    }
    takeOperator(scanner, chain, found);
    chain.operands.push(readValue(scanner) ?? missingOperand(scanner));
    chain.heights.push(scanner.height);
  }
}

/** `#1`, `#<name>`, `#[expression]`, `##1`; the scanner stands at the `#`. */
export function readParameter(scanner: Scanner): ParameterExpression {
  const start = scanner.at;
  scanner.at++;
  const unit = scanner.peek();
  if (unit === code.less) return readName(scanner, start);
  if (!scanner.enter()) return badParameter(scanner, start, scanner.end);
  const index = readValue(scanner);
  scanner.leave();
  if (index === null) {
    const end = start + 1;
    scanner.fault('missing-value', { start, end }, '#');
    scanner.at = end;
    return badParameter(scanner, start, end);
  }
  if (index.kind === 'number') return literalIndex(scanner, start, index);
  scanner.limitHeight(scanner.height + 1, start);
  return { kind: 'parameter', index: { expression: index }, start, end: index.end };
}

function literalIndex(scanner: Scanner, start: number, index: Expression & { kind: 'number' }) {
  const number = Math.round(index.value);
  // "Close to integer" is within 0.0001 (NISTIR 6556 3.3.2.1).
  if (Math.abs(index.value - number) > 1e-4 || number < scanner.dialect.leastParameter) {
    scanner.fault('bad-number', { start, end: index.end }, scanner.text.slice(start, index.end));
  }
  return { kind: 'parameter', index: { number }, start, end: index.end } as const;
}

function readName(scanner: Scanner, start: number): ParameterExpression {
  const open = scanner.at;
  const close = scanner.text.indexOf('>', open);
  const closed = close >= 0 && close < scanner.end;
  const end = closed ? close + 1 : scanner.end;
  const name = plainName(scanner.text.slice(open + 1, closed ? close : end));
  scanner.at = end;
  if (!closed) scanner.fault('unclosed-name', { start, end });
  else if (name === '') scanner.fault('missing-value', { start, end }, '#<>');
  else if (!scanner.dialect.namedParameters) scanner.fault('unexpected-character', { start, end }, '<');
  return { kind: 'parameter', index: { name }, start, end };
}

/** A name as the dialect compares it: lower case, blanks out. */
export function plainName(written: string): string {
  return written.replace(/[ \t]/g, '').toLowerCase();
}

function readSigned(scanner: Scanner): Expression {
  const start = scanner.at;
  const next = scanner.look(start + 1);
  if (!isLetter(next) && next !== code.hash && next !== code.openBracket) return readNumber(scanner);
  const operator = scanner.text.charCodeAt(start) === code.minus ? '-' : '+';
  scanner.at++;
  const operand = readValue(scanner);
  if (operand === null) {
    scanner.at = start + 1;
    scanner.fault('missing-operand', { start, end: start + 1 }, operator);
    return { kind: 'bad', start, end: start + 1 };
  }
  scanner.limitHeight(scanner.height + 1, start);
  return { kind: 'unary', operator, operand, start, end: operand.end };
}

/** A function with its arguments; null where the letters are none, a fault where they look like one. */
function readFunction(scanner: Scanner): Expression | null {
  const start = scanner.at;
  for (const name of scanner.dialect.functions) {
    const end = scanner.match(name, start);
    if (end < 0) continue;
    scanner.at = end;
    if (scanner.peek() === code.openBracket) return readArguments(scanner, name, start);
    scanner.fault('missing-operand', { start, end }, name);
    const bare = readValue(scanner);
    if (bare === null) scanner.at = end;
    return { kind: 'bad', start, end: bare?.end ?? end };
  }
  return readUnknownFunction(scanner);
}

function readArguments(scanner: Scanner, name: FunctionName, start: number): Expression {
  const values = [readBracketOrPair(scanner, name)].flat();
  let height = scanner.height;
  const divided = name === 'ATAN' && values.length === 1 ? scanner.match('/[', scanner.at) : -1;
  if (divided > 0) {
    scanner.at = divided - 1;
    values.push(readBracket(scanner));
    height = Math.max(height, scanner.height);
  } else if (values.length === 1 && needsTwo(scanner, name)) {
    scanner.fault('missing-operand', { start, end: scanner.at }, name);
  }
  const end = scanner.at;
  scanner.limitHeight(height + 1, start);
  return { kind: 'call', name, arguments: values, start, end };
}

/** ATAN[y] alone is common practice in the macro family; NISTIR 6556 always wants `/[x]` behind it. */
function needsTwo(scanner: Scanner, name: FunctionName): boolean {
  return name === 'POW' || (name === 'ATAN' && scanner.dialect.name === 'rs274ngc');
}

/** One bracket; in the macro dialect ATAN and POW may hold two values with a comma between. */
function readBracketOrPair(scanner: Scanner, name: FunctionName): Expression | Expression[] {
  const start = scanner.at;
  if (scanner.dialect.name !== 'macro' || (name !== 'ATAN' && name !== 'POW')) return readBracket(scanner);
  if (!scanner.enter()) return { kind: 'bad', start, end: scanner.end };
  scanner.at++;
  const first = readChain(scanner);
  let height = scanner.height;
  const values = [first];
  if (scanner.peek() === code.comma) {
    scanner.at++;
    values.push(readChain(scanner));
    height = Math.max(height, scanner.height);
  }
  const end = closeBracket(scanner, start, (values.at(-1) ?? first).end);
  scanner.leave();
  scanner.height = height;
  return values.length === 1 ? { ...first, start, end } : values;
}

function readUnknownFunction(scanner: Scanner): Expression | null {
  const start = scanner.at;
  let end = start;
  while (end < scanner.end && isLetter(scanner.text.charCodeAt(end))) end++;
  if (end - start < 2 || scanner.look(end) !== code.openBracket) return null;
  const name = scanner.text.slice(start, end).toUpperCase();
  scanner.fault('unknown-function', { start, end }, name);
  scanner.at = scanner.skip(end);
  const argument = readBracket(scanner);
  return { kind: 'bad', start, end: argument.end };
}

function takeOperator(scanner: Scanner, chain: Chain, found: FoundOperator): void {
  scanner.at = found.end;
  chain.operators.push(found.operator);
  if (!scanner.limitHeight(chain.operators.length, found.start)) return;
  if (scanner.dialect.precedence[found.operator] === 0) {
    scanner.fault('unexpected-character', found, found.operator);
  }
}

/** Where a value should stand inside brackets and none does. */
function missingOperand(scanner: Scanner): Expression {
  const unit = scanner.peek();
  const start = scanner.at;
  if (isLetter(unit)) return strayLetters(scanner, start);
  // At the end of the code the bracket is not closed either: one fault for both.
  const ends = Number.isNaN(unit) || unit === code.semicolon;
  if (!ends) scanner.fault('missing-operand', { start: start - 1, end: start });
  return { kind: 'bad', start, end: start };
}

/** Letters where a value should stand inside brackets: one fault for all of them. */
function strayLetters(scanner: Scanner, start: number): Expression {
  let end = start;
  while (end < scanner.end && isLetter(scanner.text.charCodeAt(end))) end++;
  scanner.fault('unknown-function', { start, end }, scanner.text.slice(start, end).toUpperCase());
  scanner.at = end;
  return { kind: 'bad', start, end };
}

function badParameter(scanner: Scanner, start: number, end: number): ParameterExpression {
  scanner.height = 1;
  return { kind: 'parameter', index: { expression: { kind: 'bad', start: end, end } }, start, end };
}
