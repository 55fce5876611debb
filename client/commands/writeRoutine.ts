import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type DescribeRoutinesResult,
  type DocumentPosition,
  describeRoutines,
  type GenerateRoutineParams,
  type GenerateRoutineResult,
  generateRoutine,
  type RoutineDescription,
  type RoutineForm,
} from '../../server/protocol/requests.ts';
import { language } from '../languageServer.ts';
import { chooseValues } from './chooseValues.ts';

const title = 'Write a probing routine';

/** Asks for the feature and its measures, then inserts the routine at the cursor as one step of undo. */
export async function writeRoutine(client: LanguageClient): Promise<void> {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== language) {
    const message = 'Open a G-code program and put the cursor where the routine is to stand.';
    void vscode.window.showInformationMessage(message);
    return;
  }
  const place = placeOf(editor);
  const described = await client.sendRequest<DescribeRoutinesResult>(describeRoutines, place);
  const routine = await chooseRoutine(described);
  const form = routine && (await chooseForm(routine));
  if (!routine || !form) return;
  const generate = (values: GenerateRoutineParams['values']) => {
    const params: GenerateRoutineParams = { ...place, routine: routine.name, form, values };
    return client.sendRequest<GenerateRoutineResult>(generateRoutine, params);
  };
  const text = await chooseValues(`${title}: ${routine.title}`, routine.inputs, generate);
  if (text !== null) await insert(editor, text);
}

function placeOf({ document, selection }: vscode.TextEditor): DocumentPosition {
  const { line, character } = selection.active;
  return { uri: document.uri.toString(), position: { line, character } };
}

async function chooseRoutine({
  routines,
  profile,
  units,
}: DescribeRoutinesResult): Promise<RoutineDescription | undefined> {
  const items = routines.map((routine) => ({ label: routine.title, detail: routine.summary, routine }));
  const values =
    profile === null ? 'built-in probe values: this folder has no profile' : 'your probe profile';
  const chosen = await vscode.window.showQuickPick(items, {
    title,
    placeHolder: `What is to be touched? In ${units === 'mm' ? 'millimetres' : 'inches'}, with ${values}`,
    matchOnDetail: true,
  });
  return chosen?.routine;
}

async function chooseForm({ title: name, forms }: RoutineDescription): Promise<RoutineForm | undefined> {
  if (forms.length < 2) return forms[0];
  const explained: Record<RoutineForm, { label: string; detail: string }> = {
    inline: { label: 'Here, block by block', detail: 'Runs where it stands.' },
    subroutine: {
      label: 'As a subroutine',
      detail: 'Stands apart and is called; it gives its results back.',
    },
  };
  const items = forms.map((form) => ({ ...explained[form], form }));
  const chosen = await vscode.window.showQuickPick(items, {
    title: `${title}: ${name}`,
    placeHolder: 'How is it to stand in the program?',
  });
  return chosen?.form;
}

/** Whole lines: a blank line is replaced, otherwise the text goes before a line (cursor at its start) or after it. */
async function insert(editor: vscode.TextEditor, text: string): Promise<void> {
  const line = editor.document.lineAt(editor.selection.active.line);
  const lines = text.replace(/\n*$/, '');
  const before = !line.isEmptyOrWhitespace && editor.selection.active.character === 0;
  const inserted = await editor.edit((edit) => {
    if (line.isEmptyOrWhitespace) edit.replace(line.range, lines);
    else if (before) edit.insert(line.range.start, `${lines}\n`);
    else edit.insert(line.range.end, `\n${lines}`);
  });
  if (!inserted) {
    void vscode.window.showErrorMessage('The routine was not inserted: the program cannot be changed.');
    return;
  }
  const first = line.isEmptyOrWhitespace || before ? line.lineNumber : line.lineNumber + 1;
  const start = new vscode.Position(first, 0);
  editor.selection = new vscode.Selection(start, start);
  editor.revealRange(new vscode.Range(start, start), vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}
