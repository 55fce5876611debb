import type { DescribedInput, Description } from '../routines/describe.ts';
import type { ListedRoutine } from '../routines/registry.ts';
import type { ErrorToExpect } from './errorToExpect.ts';
import type { Style } from './style.ts';
import { wrapIndented } from './wrap.ts';

/** What can be written, a line or two each. */
export function routineListText(listed: readonly ListedRoutine[], style: Style, width: number): string {
  const column = Math.max(...listed.map(({ name }) => name.length)) + 4;
  const entries = listed.map(({ name, summary }) => {
    const text = wrapIndented(summary, width, column);
    return `  ${style.bold(name)}${text.slice(name.length + 2)}`;
  });
  return `${entries.join('')}\n${style.dim('`probewright generate FEATURE --describe` names the inputs of one.')}\n`;
}

/** A routine's inputs with defaults and limits for this probe and machine, and what it gives. */
export function routineDescriptionText(
  description: Description,
  expected: ErrorToExpect,
  style: Style,
  width: number,
): string {
  const { name, title, summary, inputs, results } = description;
  const column = Math.max(...[...inputs, ...results].map((each) => each.name.length)) + 4;
  const results_ = results.map((result) => `  ${result.name.padEnd(column - 2)}${result.title}\n`);
  return [
    `${style.bold(name)}: ${title}\n${wrapIndented(summary, width, 0)}`,
    `${style.bold('Inputs')}, as --set name=value\n${inputs.map((input) => inputText(input, column, style, width)).join('')}`,
    `${style.bold('Results')}\n${results_.join('')}`,
    ...errorTexts(expected, style),
  ].join('\n');
}

function errorTexts({ errors, betterWays }: ErrorToExpect, style: Style): string[] {
  const column = Math.max(0, ...errors.map(({ title }) => title.length)) + 2;
  const rows = errors.map(({ title, text }) => `  ${title.padEnd(column)}${text}\n`);
  const ways = betterWays.map(({ title, text }) => `  ${title}\n    ${style.dim(text)}\n`);
  return [
    ...(rows.length > 0 ? [`${style.bold('Error to expect with these values')}\n${rows.join('')}`] : []),
    ...(ways.length > 0 ? [`${style.bold('What would make it better')}\n${ways.join('')}`] : []),
  ];
}

function inputText(input: DescribedInput, column: number, style: Style, width: number): string {
  const unit = input.unit === null ? '' : ` ${input.unit}`;
  const usual = input.default === null ? '' : `, ${input.default}${unit} unless set`;
  const head = `  ${input.name.padEnd(column - 2)}${input.title}${usual}; ${allowedText(input)}\n`;
  const help = wrapIndented(input.help, width, column).replace(/\S.*/g, style.dim);
  return `${head}${help}`;
}

/** What an input takes: "8.2 to 410 mm", "one of two, three". */
export function allowedText({ type, unit, least, greatest, choices }: DescribedInput): string {
  const units = unit === null ? '' : ` ${unit}`;
  if (choices !== null) return `one of ${choices.map(({ value }) => value).join(', ')}`;
  if (type === 'flag') return 'true or false';
  if (type === 'text') return 'any text';
  if (least !== null && greatest !== null) return `${least} to ${greatest}${units}`;
  if (least !== null) return `${least}${units} or more`;
  if (greatest !== null) return `${greatest}${units} or less`;
  return unit === null ? 'any number' : `any number of ${unit}`;
}
