import * as vscode from 'vscode';
import type { GenerateRoutineResult, InputValue, RoutineInput } from '../../server/protocol/requests.ts';
import { inputFault, limits, readInput, shownValue } from './inputs.ts';

type Values = Readonly<Record<string, InputValue>>;
type Generate = (values: Values) => Promise<GenerateRoutineResult>;

/**
 * Asks for what a routine must know, then shows every value with the error to expect, until the person takes it.
 * Gives the routine's text; null: the person left.
 */
export async function chooseValues(
  title: string,
  inputs: readonly RoutineInput[],
  generate: Generate,
): Promise<string | null> {
  let values = await askRequired(title, inputs);
  while (values) {
    const result = await generate(values);
    const choice = await review(title, inputs, values, result);
    if (choice === undefined) return null;
    if (choice === 'insert' && result.text !== null) return result.text;
    if (typeof choice === 'object') values = { ...values, ...(await askInput(title, choice, values)) };
  }
  return null;
}

async function askRequired(title: string, inputs: readonly RoutineInput[]): Promise<Values | null> {
  const required = inputs.filter((input) => input.required);
  let values: Values = {};
  for (const [index, input] of required.entries()) {
    const step = required.length > 1 ? ` (${index + 1} of ${required.length})` : '';
    const answer = await askInput(`${title}${step}`, input, values);
    if (!answer) return null;
    values = { ...values, ...answer };
  }
  return values;
}

interface ReviewItem extends vscode.QuickPickItem {
  readonly choice?: RoutineInput | 'insert' | 'look again';
}

async function review(
  title: string,
  inputs: readonly RoutineInput[],
  values: Values,
  result: GenerateRoutineResult,
): Promise<ReviewItem['choice']> {
  const rows = inputs.map((input): ReviewItem => {
    const value = shownValue(input, values[input.name] ?? input.default);
    return { label: input.title, description: value, choice: input };
  });
  const items = [...verdicts(result), heading('values: choose one to change it'), ...rows];
  const chosen = await vscode.window.showQuickPick(items, {
    title,
    placeHolder: result.text === null ? 'Change a value' : 'Insert it, or change a value first',
    matchOnDescription: true,
    ignoreFocusOut: true,
  });
  return chosen && (chosen.choice ?? 'look again');
}

/** The first rows of the list: what is wrong with the values, or the error to expect with them. */
function verdicts({ problems, expectedErrors, betterWays, text }: GenerateRoutineResult): ReviewItem[] {
  if (text === null)
    return problems.map(({ message }) => ({ label: '$(error) This cannot be written', detail: message }));
  const row = ({ title, text: description }: { title: string; text: string }) => ({
    label: title,
    description,
  });
  const [errors, better] = [expectedErrors.map(row), betterWays.map(row)];
  return [
    { label: '$(check) Insert at the cursor', choice: 'insert' },
    ...(errors.length > 0 ? [heading('error to expect'), ...errors] : []),
    ...(better.length > 0 ? [heading('what would make it better'), ...better] : []),
  ];
}

function heading(label: string): ReviewItem {
  return { label, kind: vscode.QuickPickItemKind.Separator };
}

/** One answer, ready to be merged into the values; undefined: the person left. */
async function askInput(title: string, input: RoutineInput, values: Values): Promise<Values | undefined> {
  const present = values[input.name] ?? input.default;
  const answer =
    input.type === 'flag' || input.type === 'choice'
      ? await askChoice(title, input, present)
      : await askText(title, input, present);
  return answer === undefined ? undefined : { [input.name]: answer };
}

async function askText(
  title: string,
  input: RoutineInput,
  present: InputValue | null,
): Promise<InputValue | undefined> {
  const typed = await vscode.window.showInputBox({
    title: `${title}: ${input.title}${input.unit === null ? '' : `, ${input.unit}`}`,
    prompt: [input.help, limits(input)].filter((part) => part !== '').join(' '),
    value: present === null ? '' : String(present),
    ignoreFocusOut: true,
    validateInput: (text) => inputFault(input, text),
  });
  return typed === undefined ? undefined : (readInput(input, typed) ?? input.default ?? undefined);
}

async function askChoice(
  title: string,
  input: RoutineInput,
  present: InputValue | null,
): Promise<InputValue | undefined> {
  const answers =
    input.type === 'flag'
      ? [true, false].map((value) => ({ value, title: value ? 'Yes' : 'No' }))
      : (input.choices ?? []);
  const items = answers.map((answer) => ({
    label: answer.title,
    ...(answer.value === present && { description: 'as it is' }),
    value: answer.value,
  }));
  const chosen = await vscode.window.showQuickPick(items, {
    title: `${title}: ${input.title}`,
    placeHolder: input.help,
    ignoreFocusOut: true,
  });
  return chosen?.value;
}
