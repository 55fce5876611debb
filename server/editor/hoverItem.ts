import { readMessage } from '../syntax/messages.ts';
import type { Block, Comment, Output } from '../syntax/tree.ts';
import type { Program } from '../workspace/program.ts';
import type { OperationAt } from './expressionAt.ts';
import { functionMeanings, operatorMeanings } from './functionMeanings.ts';
import { parameterName, shownParameter } from './parameterName.ts';
import { code, type Part, paragraph } from './richText.ts';
import { shownValue, valueHere } from './valueHere.ts';

/** A function or an operator, with what it comes to where that is known. */
export function operationParts(program: Program, line: number, { expression }: OperationAt): Part[] {
  const about =
    expression.kind === 'call'
      ? `${code(functionMeanings[expression.name].form)} — ${functionMeanings[expression.name].title}`
      : `${code(expression.operator)} — ${operatorMeanings[expression.operator]}`;
  const state = program.analysis.stateAt(line);
  const value = state && valueHere(expression, state, program.source.dialect.name);
  return value === null
    ? [paragraph(about)]
    : [paragraph(about), paragraph(`Here it is ${code(shownValue(value))}.`)];
}

/** DPRNT and its kin, with what they print. */
export function outputParts(program: Program, line: number, { command, parameters }: Output): Part[] {
  return [paragraph(`**${command}** — ${outputs[command]}`), ...printed(program, line, parameters)];
}

/** Common practice of the macro family, no source. */
const outputs: Readonly<Record<Output['command'], string>> = {
  POPEN: 'opens the output, before anything is printed.',
  PCLOS: 'closes the output.',
  DPRNT:
    'prints text and parameters; `#100[53]` stands for 5 digits before and 3 behind the point, `*` for a blank.',
  BPRNT: 'sends letters and parameters in binary form.',
};

/** A comment that acts: shown to the operator, printed, logged, or a stop. */
export function messageParts(program: Program, line: number, block: Block, comment: Comment): Part[] {
  const message = readMessage(block, comment, program.source.dialect);
  if (!message) return [];
  const about = paragraph(`A comment that acts: ${messages[message.command]}.`);
  return [about, ...printed(program, line, message.parameters)];
}

/** NISTIR 6556, 3.3.4, for MSG; the others are common practice, no source. */
const messages: Readonly<Record<NonNullable<ReturnType<typeof readMessage>>['command'], string>> = {
  message: 'shows its text to the operator',
  debug: 'shows its text, with the values of the parameters in it',
  print: 'prints its text, with the values of the parameters in it',
  log: 'writes its text to the log file that is open, with the values of the parameters in it',
  'log-open': 'opens a log file',
  'log-close': 'closes the log file',
  abort: 'stops the program with its text',
  'probe-open': 'opens a file that takes the position of every touch',
  'probe-close': 'closes the file that takes the touches',
};

function printed(program: Program, line: number, parameters: Output['parameters']): Part[] {
  const state = program.analysis.stateAt(line);
  const rows = parameters.flatMap((parameter) => {
    const name = parameterName(parameter);
    if (name === null) return [];
    const value = state && valueHere(parameter, state, program.source.dialect.name);
    return [[code(shownParameter(name)), value === null ? 'known only at the machine' : shownValue(value)]];
  });
  return rows.length === 0 ? [] : [{ kind: 'table', head: ['prints', 'value here'], rows, right: [1] }];
}
