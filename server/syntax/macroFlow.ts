import { code, isDigit } from './charCodes.ts';
import { readBracketed, readValue } from './expressions.ts';
import { digitsAt } from './numbers.ts';
import type { Scanner } from './scanner.ts';
import { readSetting } from './settings.ts';
import type { Expression, MacroFlow, Setting, Span } from './tree.ts';

/** IF GOTO, IF THEN, GOTO, WHILE DO, DO, END (common practice); null, without moving, where none of them stands. */
export function readMacroFlow(scanner: Scanner): MacroFlow | null {
  const start = scanner.at;
  for (const [keyword, read] of readers) {
    const end = scanner.match(keyword, start);
    if (end < 0) continue;
    scanner.at = end;
    return read(scanner, { start, end });
  }
  const end = scanner.match('IF', start);
  // I FIX[…] and I FUP[…] are words.
  if (end < 0 || scanner.match('FIX[', end - 1) > 0 || scanner.match('FUP[', end - 1) > 0) return null;
  scanner.at = end;
  return readIf(scanner, { start, end });
}

type Reader = (scanner: Scanner, keyword: Span) => MacroFlow;

const readers: readonly (readonly [string, Reader])[] = [
  ['GOTO', (scanner, keyword) => readGoto(scanner, keyword, keyword.start, null)],
  ['WHILE', readWhile],
  ['DO', (scanner, keyword) => readDo(scanner, keyword, keyword.start, null)],
  ['END', readEnd],
];

function readIf(scanner: Scanner, keyword: Span): MacroFlow {
  const condition = readCondition(scanner, keyword, 'IF');
  return readJump(scanner, keyword.start, condition) ?? readThen(scanner, keyword, condition);
}

function readJump(scanner: Scanner, start: number, condition: Expression): MacroFlow | null {
  skipComments(scanner);
  const end = scanner.match('GOTO', scanner.at);
  if (end < 0) return null;
  const span = { start: scanner.at, end };
  scanner.at = end;
  return readGoto(scanner, span, start, condition);
}

/** `THEN #1=2`, and `THEN GOTO 10`, which is a jump as without THEN. */
function readThen(scanner: Scanner, keyword: Span, condition: Expression): MacroFlow {
  const { start } = keyword;
  const then = scanner.match('THEN', scanner.at);
  if (then > 0) {
    scanner.at = then;
    const jump = readJump(scanner, start, condition);
    if (jump) return jump;
  }
  const end = then > 0 ? then : condition.end;
  if (then > 0 && scanner.peek() === code.hash) {
    const setting = readSetting(scanner);
    const statement: Setting | null = setting.kind === 'setting' ? setting : null;
    return { kind: 'flow', form: 'if-then', condition, statement, start, end: setting.end };
  }
  scanner.at = end;
  scanner.fault('missing-statement', { start, end }, then > 0 ? 'THEN' : 'IF');
  return { kind: 'flow', form: 'if-then', condition, statement: null, start, end };
}

function readGoto(scanner: Scanner, keyword: Span, start: number, condition: Expression | null): MacroFlow {
  const target = readValue(scanner);
  if (target !== null) return { kind: 'flow', form: 'goto', condition, target, start, end: target.end };
  const { end } = keyword;
  scanner.at = end;
  scanner.fault('missing-target', keyword, 'GOTO');
  return { kind: 'flow', form: 'goto', condition, target: { kind: 'bad', start: end, end }, start, end };
}

function readWhile(scanner: Scanner, keyword: Span): MacroFlow {
  const { start } = keyword;
  const condition = readCondition(scanner, keyword, 'WHILE');
  skipComments(scanner);
  const found = scanner.match('DO', scanner.at);
  if (found > 0) {
    const span = { start: scanner.at, end: found };
    scanner.at = found;
    return readDo(scanner, span, start, condition);
  }
  scanner.at = condition.end;
  scanner.fault('missing-statement', { start, end: condition.end }, 'WHILE');
  return { kind: 'flow', form: 'while-do', condition, loop: null, start, end: condition.end };
}

function readDo(scanner: Scanner, keyword: Span, start: number, condition: Expression | null): MacroFlow {
  const { loop, end } = readLoopNumber(scanner, keyword, 'DO');
  return { kind: 'flow', form: 'while-do', condition, loop, start, end };
}

function readEnd(scanner: Scanner, keyword: Span): MacroFlow {
  const { loop, end } = readLoopNumber(scanner, keyword, 'END');
  return { kind: 'flow', form: 'end', loop, start: keyword.start, end };
}

/** Common practice: DO1 to DO3, one within the other; some controls take more. */
const mostLoops = 3;

function readLoopNumber(scanner: Scanner, keyword: Span, name: string) {
  if (isDigit(scanner.peek())) {
    const { digits, end } = digitsAt(scanner, scanner.at);
    const loop = Number(digits);
    if (name === 'DO' && (loop < 1 || loop > mostLoops))
      scanner.fault('loop-number', { start: keyword.start, end }, digits);
    scanner.at = end;
    return { loop, end };
  }
  scanner.at = keyword.end;
  scanner.fault('missing-target', keyword, name);
  return { loop: null, end: keyword.end };
}

/** A condition in brackets; without brackets it is read all the same, with a fault. */
function readCondition(scanner: Scanner, keyword: Span, name: string): Expression {
  const condition = readBracketed(scanner);
  if (condition !== null) return condition;
  scanner.at = keyword.end;
  scanner.fault('missing-condition', keyword, name);
  return { kind: 'bad', start: keyword.end, end: keyword.end };
}

/** Comments between the condition and what depends on it belong to the flow item. */
function skipComments(scanner: Scanner): void {
  while (scanner.peek() === code.openParenthesis) {
    const close = scanner.text.indexOf(')', scanner.at);
    if (close < 0 || close >= scanner.end) return;
    scanner.at = close + 1;
  }
}
