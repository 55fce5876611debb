import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type CalibrateParams,
  type CalibrateResult,
  calibrate as calibrateRequest,
  type PlanCalibrationParams,
  type PlanCalibrationResult,
  type ProfileWithIt,
  planCalibration as planRequest,
  type TouchedKind,
} from '../../server/protocol/calibration.ts';
import type { Pages } from '../pages.ts';
import { profileName } from './createProfile.ts';
import { anglesFault, countFault, readAngles, readSize, sizeFault } from './sizes.ts';

const touched: readonly (vscode.QuickPickItem & { readonly label: TouchedKind })[] = [
  { label: 'ring', detail: 'A ring gauge, touched from inside all round: effective diameter and lobes' },
  { label: 'plug', detail: 'A plug gauge or a pin, touched from outside all round' },
  { label: 'gap', detail: 'Two faces, touched from between them: one axis' },
  { label: 'block', detail: 'A gauge block, touched on two opposite sides: one axis' },
  { label: 'sphere', detail: 'A reference sphere, touched on top and all round: lateral and axial radius' },
];

/** From a table of touches to the effective diameter, and on request into the profile. */
export async function calibrate(client: LanguageClient, pages: Pages): Promise<void> {
  const table = await chooseTable();
  if (!table) return;
  const kind = await vscode.window.showQuickPick(touched, {
    title: 'What was touched?',
    ignoreFocusOut: true,
  });
  if (!kind) return;
  const size = await askSize(
    'How large is it?',
    'Its certified diameter or width, in the unit of the probe profile.',
    true,
  );
  if (size === undefined) return;
  const sure = await askSize(
    'How well is that known?',
    'Expanded uncertainty (k = 2) from its certificate, in the same unit. Leave it empty where it is not known.',
    false,
  );
  if (sure === undefined) return;
  const params: CalibrateParams = {
    uri: table.uri.toString(),
    text: table.getText(),
    kind: kind.label,
    size: size ?? 0,
    expandedUncertainty: sure,
    tipDiameter: null,
    day: today(),
  };
  const ask = (given: CalibrateParams) => client.sendRequest<CalibrateResult>(calibrateRequest, given);
  let result = await ask(params);
  if (result.kind === 'tip-wanted') {
    const tipDiameter = await askSize(
      'How large is the tip?',
      'Its actual diameter, as a micrometer reads it: the profile states none.',
      true,
    );
    if (tipDiameter === undefined) return;
    result = await ask({ ...params, tipDiameter });
  }
  if (result.kind === 'tip-wanted') return;
  if (result.kind === 'refused') {
    void vscode.window.showErrorMessage(`Not calibrated: ${result.problems.join(' ')}`);
    return;
  }
  await pages.showMade(result.page);
  await offerProfile(result.summary, result.profile, table.uri);
}

/** The table of touches in the editor, else one that the person chooses. */
async function chooseTable(): Promise<vscode.TextDocument | undefined> {
  const open = vscode.window.activeTextEditor?.document;
  if (open && /\.csv$/i.test(open.uri.path)) return open;
  const chosen = await vscode.window.showOpenDialog({
    title: 'Which touches?',
    openLabel: 'Calibrate from these',
    filters: { 'Touches (CSV)': ['csv'] },
  });
  return chosen?.[0] && vscode.workspace.openTextDocument(chosen[0]);
}

async function offerProfile(summary: string, profile: ProfileWithIt, touches: vscode.Uri): Promise<void> {
  if (profile.kind === 'impossible') {
    void vscode.window.showWarningMessage(`${summary}. It can’t stand in the profile: ${profile.message}`);
    return;
  }
  const put = `Put it into ${profileName}`;
  if ((await vscode.window.showInformationMessage(`${summary}.`, put)) !== put) return;
  const uri =
    profile.uri === null ? vscode.Uri.joinPath(touches, '..', profileName) : vscode.Uri.parse(profile.uri);
  await vscode.window.showTextDocument(await documentWith(uri, profile));
}

/** In one step that one undo takes back, and not yet saved where the file was there before. */
async function documentWith(
  uri: vscode.Uri,
  profile: ProfileWithIt & { kind: 'text' },
): Promise<vscode.TextDocument> {
  const edit = new vscode.WorkspaceEdit();
  if (profile.uri === null)
    edit.createFile(uri, { ignoreIfExists: true, contents: new TextEncoder().encode(profile.text) });
  else {
    const document = await vscode.workspace.openTextDocument(uri);
    const all = new vscode.Range(
      new vscode.Position(0, 0),
      document.lineAt(document.lineCount - 1).range.end,
    );
    edit.replace(uri, all, profile.text.replace(/^\uFEFF/, ''));
  }
  await vscode.workspace.applyEdit(edit);
  return vscode.workspace.openTextDocument(uri);
}

/** Where to touch, before anything is touched: a page that says what it will tell, and the table to fill in. */
export async function planCalibration(client: LanguageClient, pages: Pages): Promise<void> {
  const kinds = touched.filter(({ label }) => label !== 'gap' && label !== 'block');
  const kind = await vscode.window.showQuickPick(kinds, {
    title: 'What will be touched?',
    ignoreFocusOut: true,
  });
  if (!kind) return;
  const isSphere = kind.label === 'sphere';
  const touches = isSphere
    ? '25'
    : await vscode.window.showInputBox({
        title: 'How many touches will you spend?',
        prompt: 'Eight or more tell three-lobed pre-travel from a shift of the ring.',
        value: '12',
        validateInput: countFault,
        ignoreFocusOut: true,
      });
  if (touches === undefined) return;
  const angles = isSphere
    ? ''
    : await vscode.window.showInputBox({
        title: 'At which spindle angles?',
        prompt: 'Degrees, such as 0, 180. Leave it empty where the spindle is not turned between touches.',
        validateInput: anglesFault,
        ignoreFocusOut: true,
      });
  if (angles === undefined) return;
  const params: PlanCalibrationParams = {
    uri: whereWeAre(),
    kind: kind.label as PlanCalibrationParams['kind'],
    touches: Number(touches),
    spindles: readAngles(angles),
  };
  const result = await client.sendRequest<PlanCalibrationResult>(planRequest, params);
  if (result.kind === 'refused') {
    void vscode.window.showErrorMessage(result.problems.join(' '));
    return;
  }
  const table = await vscode.workspace.openTextDocument({ content: result.table });
  await vscode.window.showTextDocument(table);
  await pages.showMade(result.page);
}

export async function showProbe(pages: Pages): Promise<void> {
  await pages.showProbe(whereWeAre(), today());
}

/** What the nearest profile is looked for from. */
function whereWeAre(): string {
  const open = vscode.window.activeTextEditor?.document.uri;
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  if (open && open.scheme !== 'untitled') return open.toString();
  return (
    folder ? vscode.Uri.joinPath(folder.uri, profileName) : vscode.Uri.parse('untitled:touches')
  ).toString();
}

async function askSize(title: string, prompt: string, isNeeded: boolean): Promise<number | null | undefined> {
  const typed = await vscode.window.showInputBox({
    title,
    prompt,
    ignoreFocusOut: true,
    validateInput: (text) => sizeFault(text, isNeeded),
  });
  return typed === undefined ? undefined : readSize(typed);
}

/** The day where the machine stands. */
function today(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
