import type { Profile } from '../profile/profile.ts';
import { headerOf } from './header.ts';
import { MacroBody } from './macroBody.ts';
import { comment, pointed } from './macroNotation.ts';
import { labelNumbers, numberedParameters } from './names.ts';
import { sealed } from './seal.ts';
import { argumentsOf, argumentValue, resultNames, type Writing, type WrittenLines } from './writing.ts';

const argumentLetters = ['A', 'B', 'C', 'I', 'J', 'K'];

/**
 * The routine in the macro dialect: common variables, skip moves tested by where they ended, one way out for all
 * failures. null where the program leaves too few of the common variables.
 */
export function writeMacro(writing: Writing): WrittenLines | null {
  const free = numberedParameters({
    common: writing.plan.profile.routines.parameters,
    used: writing.usedParameters,
    arguments: writing.form === 'inline' ? null : argumentsOf(writing).map((input) => input.name),
    results: new Set(writing.routine.results.map((result) => result.name)),
  });
  let exhausted = false;
  const name = (variable: string) => {
    const parameter = free(variable);
    if (parameter === null) exhausted = true;
    return parameter ?? '#0';
  };
  const label = labelNumbers(writing.usedLabels, 901);
  const number = labelNumbers(writing.usedLabels, writing.routine.subroutine.number)();
  const lines = program(
    new MacroBody(writing, name, { aside: label(), up: label(), done: label() }),
    writing,
    number,
  );
  return exhausted ? null : { lines, parameters: resultNames(writing, name) };
}

/** Why there is no routine. */
export function noVariablesLeft({ routines }: Profile): string {
  const { first, last } = routines.parameters;
  return `The program uses so many of #${first} to #${last} that too few are left for the routine. The profile may name others: routines.parameters.`;
}

function program(body: MacroBody, writing: Writing, number: number): string[] {
  const { routine, form, standAlone } = writing;
  const header = headerOf(writing, 'macro').flatMap(comment);
  const units = writing.plan.units === 'inch' ? 'G20' : 'G21';
  const inputs = form === 'inline' ? body.inputSettings() : body.argumentSettings();
  const preparation = body.preparation();
  const steps = writing.steps.flatMap((step) => body.step(step));
  const inner = [...inputs, ...preparation, ...steps, ...body.ending()];
  if (form === 'inline') {
    const lines = sealed(routine.title, [...header, ...inner], comment);
    return standAlone ? ['%', `${units} G90`, ...lines, 'M30', '%'] : lines;
  }
  const own = [
    `O${number} (${routine.title.toUpperCase()})`,
    ...header,
    ...comment(callText(writing, number)),
    ...inner,
    'M99',
  ];
  const subroutine = sealed(routine.title, own, comment);
  if (!standAlone) return subroutine;
  const main = ['O0001', `${units} G90`, `G65 P${number}${callArguments(writing)}`, 'M30'];
  return ['%', ...main, ...subroutine, '%'];
}

function callText(writing: Writing, number: number): string {
  const taken = argumentsOf(writing).map((input, index) => `${argumentLetters[index]} ${input.title}`);
  return `Call: G65 P${number}${callArguments(writing)} with ${taken.join(', ')}, in ${writing.plan.units}.`;
}

function callArguments(writing: Writing): string {
  return argumentsOf(writing)
    .map((input, index) => ` ${argumentLetters[index]}${pointed(argumentValue(writing, input))}`)
    .join('');
}
