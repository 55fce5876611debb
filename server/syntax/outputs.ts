import { code } from './charCodes.ts';
import { readParameter } from './expressions.ts';
import type { Scanner } from './scanner.ts';
import type { Output, ParameterExpression } from './tree.ts';

const commands = ['DPRNT', 'BPRNT', 'POPEN', 'PCLOS'] as const;

/** The macro family's output commands (common practice); null, without moving, where none of them stands. */
export function readOutput(scanner: Scanner): Output | null {
  const start = scanner.at;
  for (const command of commands) {
    const end = scanner.match(command, start);
    if (end < 0) continue;
    scanner.at = end;
    const prints = command === 'DPRNT' || command === 'BPRNT';
    const parameters = prints && scanner.peek() === code.openBracket ? readPrinted(scanner) : [];
    if (prints && scanner.at === end) scanner.fault('missing-statement', { start, end }, command);
    if (parameters.length === 0 && scanner.text.charCodeAt(scanner.at - 1) !== code.closeBracket)
      scanner.at = end;
    return { kind: 'output', command, parameters, start, end: scanner.at };
  }
  return null;
}

/** The parameters in `[X#100[53]*text]`: any text, each parameter with its format in brackets behind it. */
function readPrinted(scanner: Scanner): ParameterExpression[] {
  const open = scanner.at;
  const parameters: ParameterExpression[] = [];
  let depth = 0;
  while (scanner.at < scanner.end) {
    const unit = scanner.text.charCodeAt(scanner.at);
    if (unit === code.hash) {
      parameters.push(readParameter(scanner));
      continue;
    }
    scanner.at++;
    if (unit === code.openBracket) depth++;
    else if (unit === code.closeBracket && --depth === 0) return parameters;
  }
  scanner.fault('unclosed-bracket', { start: open, end: scanner.end });
  return parameters;
}
