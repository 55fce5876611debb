import type { DescribedInput } from '../routines/describe.ts';
import type { Documentation } from '../routines/documentation.ts';
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

/** A routine's inputs with defaults and limits for this probe and machine, what it gives, and what must be so before. */
export function routineDescriptionText(
  documented: Documentation,
  expected: ErrorToExpect,
  style: Style,
  width: number,
): string {
  const { name, title, summary, inputs, results, before, cautions, unseen } = documented;
  const column = Math.max(...[...inputs, ...results].map((each) => each.name.length)) + 4;
  const results_ = results.map((result) => `  ${result.name.padEnd(column - 2)}${result.title}\n`);
  return [
    `${style.bold(name)}: ${title}\n${wrapIndented(summary, width, 0)}`,
    `${style.bold('Inputs')}, as --set name=value\n${inputs.map((input) => inputText(input, column, style, width)).join('')}`,
    `${style.bold('Results')}\n${results_.join('')}`,
    ...errorTexts(expected, style),
    listText('Before it starts', before, style, width),
    ...(cautions.length > 0 ? [listText('Cautions', cautions, style, width)] : []),
    ...(unseen.length > 0 ? [listText('What it can not see', unseen, style, width)] : []),
  ].join('\n');
}

function listText(heading: string, items: readonly string[], style: Style, width: number): string {
  const rows = items.map((item) => `  - ${wrapIndented(item, width, 4).trimStart()}`);
  return `${style.bold(heading)}\n${rows.join('')}`;
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
  const usual = usualText(input);
  const unset = usual === '' ? '' : `, ${usual} unless set`;
  const head = `  ${input.name.padEnd(column - 2)}${input.title}${unset}; ${allowedText(input)}\n`;
  const help = wrapIndented(input.help, width, column).replace(/\S.*/g, style.dim);
  return `${head}${help}`;
}

/** What it is where nobody says: "25 mm", "two". */
export function usualText({ default: usual, unit }: DescribedInput): string {
  if (usual === null) return '';
  return unit === null || typeof usual !== 'number' ? String(usual) : `${usual} ${unit}`;
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
