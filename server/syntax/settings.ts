import { code } from './charCodes.ts';
import { readOpenChain, readParameter, readValue } from './expressions.ts';
import type { Scanner } from './scanner.ts';
import type { Expression, Setting, Stray } from './tree.ts';
import { closedValue } from './words.ts';

/** `#1=2` (NISTIR 6556 3.3.3); the scanner stands at the `#`. */
export function readSetting(scanner: Scanner): Setting | Stray {
  const target = readParameter(scanner);
  const { start } = target;
  if (scanner.peek() !== code.equals) {
    scanner.at = target.end;
    scanner.fault('missing-equals', target, scanner.text.slice(start, target.end));
    return { kind: 'stray', start, end: target.end };
  }
  if ('number' in target.index && target.index.number === 0 && scanner.dialect.leastParameter === 0)
    scanner.fault('empty-variable', target, scanner.text.slice(start, target.end));
  scanner.at++;
  const equalsEnd = scanner.at;
  const first = readValue(scanner);
  if (first === null) {
    scanner.at = equalsEnd;
    scanner.fault('missing-value', { start, end: equalsEnd }, scanner.text.slice(start, equalsEnd));
    const value: Expression = { kind: 'bad', start: equalsEnd, end: equalsEnd };
    return { kind: 'setting', target, value, start, end: equalsEnd };
  }
  const value = scanner.dialect.openExpressions ? readOpenChain(scanner, first) : closedValue(scanner, first);
  return { kind: 'setting', target, value, start, end: value.end };
}
