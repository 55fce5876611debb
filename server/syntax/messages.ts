import type { Dialect } from './dialect.ts';
import { readParameter } from './expressions.ts';
import { Scanner } from './scanner.ts';
import type { Block, Comment, ParameterExpression } from './tree.ts';

/** A comment that does something: `(MSG, …)` of NISTIR 6556 3.3.4; the others are common practice, no source. */
export interface Message {
  readonly command:
    | 'message'
    | 'debug'
    | 'print'
    | 'log'
    | 'log-open'
    | 'log-close'
    | 'abort'
    | 'probe-open'
    | 'probe-close';
  /** What stands behind the command's comma. */
  readonly text: string;
  /** Parameters whose values it prints; a plain message prints none. Spans are those of the line. */
  readonly parameters: readonly ParameterExpression[];
}

/** The words, in capitals, that make a comment act. */
export const actingWords: ReadonlyMap<string, Message['command']> = new Map([
  ['MSG', 'message'],
  ['DEBUG', 'debug'],
  ['PRINT', 'print'],
  ['LOG', 'log'],
  ['LOGOPEN', 'log-open'],
  ['LOGAPPEND', 'log-open'],
  ['LOGCLOSE', 'log-close'],
  ['ABORT', 'abort'],
  ['PROBEOPEN', 'probe-open'],
  ['PROBECLOSE', 'probe-close'],
] as const);

/** What an rs274ngc comment does, null where it only comments. */
export function readMessage(block: Block, comment: Comment, dialect: Dialect): Message | null {
  if (dialect.name !== 'rs274ngc' || comment.form !== 'parenthesis') return null;
  const found = /^\s*([A-Za-z]+)\s*(,|$|\s)/.exec(comment.text);
  const name = found?.[1]?.toUpperCase() ?? '';
  const command = actingWords.get(name);
  if (found === null || command === undefined) return null;
  const alone = command === 'log-close' || command.startsWith('probe');
  if (found[2] !== ',' && !alone) return null;
  const printing = command === 'debug' || command === 'print' || command === 'log' || command === 'abort';
  const text = comment.text.slice(found[0].length);
  return { command, text, parameters: printing ? printed(block, comment, dialect) : [] };
}

function printed(block: Block, comment: Comment, dialect: Dialect): ParameterExpression[] {
  const parameters: ParameterExpression[] = [];
  const end = comment.end - 1;
  let at = block.text.indexOf('#', comment.start);
  while (at >= 0 && at < end) {
    const scanner = new Scanner(block.text, dialect, end);
    scanner.at = at;
    const parameter = readParameter(scanner);
    if (scanner.faults.length === 0) parameters.push(parameter);
    at = block.text.indexOf('#', Math.max(parameter.end, at + 1));
  }
  return parameters;
}
