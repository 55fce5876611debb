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
} from '../../server/protocol/calibration.ts';
import type { Pages } from '../pages.ts';
import { profileName } from './createProfile.ts';
import { anglesFault, countFault, readAngles } from './sizes.ts';
import { askReference, askSize, chooseTable, openTable, touchedKinds } from './touchedReference.ts';
import { today, whereWeAre } from './whereWeAre.ts';

/** From a table of touches to the effective diameter, and on request into the profile. */
export async function calibrate(client: LanguageClient, pages: Pages): Promise<void> {
  const table = openTable() ?? (await chooseTable('Calibrate from these'));
  if (!table) return;
  const reference = await askReference(touchedKinds);
  if (!reference) return;
  const params: CalibrateParams = {
    uri: table.uri.toString(),
    text: table.getText(),
    ...reference,
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

async function offerProfile(summary: string, profile: ProfileWithIt, touches: vscode.Uri): Promise<void> {
  if (profile.kind === 'impossible') {
    void vscode.window.showWarningMessage(`${summary}. It can’t stand in the profile: ${profile.message}`);
    return;
  }
  const put = `Put it into ${profileName}`;
  if ((await vscode.window.showInformationMessage(`${summary}.`, put)) !== put) return;
  const uri =
    profile.uri === null ? vscode.Uri.joinPath(touches, '..', profileName) : vscode.Uri.parse(profile.uri);
  const written = await documentWith(uri, profile);
  if (profile.history) await addToHistory(profile.history);
  await vscode.window.showTextDocument(written, vscode.ViewColumn.One);
}

/** A step of its own, so that one undo takes back what one file got; a new file is saved, an old one is left to the person. */
async function addToHistory({
  uri: address,
  text,
}: {
  readonly uri: string;
  readonly text: string;
}): Promise<void> {
  const uri = vscode.Uri.parse(address);
  const exists = await vscode.workspace.fs.stat(uri).then(
    () => true,
    () => false,
  );
  await documentWith(uri, { kind: 'text', uri: exists ? address : null, text, history: null });
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
  const kinds = touchedKinds.filter(({ label }) => label !== 'gap' && label !== 'block');
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
  await vscode.window.showTextDocument(table, vscode.ViewColumn.One);
  await pages.showMade(result.page);
}

export async function showProbe(pages: Pages): Promise<void> {
  await pages.showProbe(whereWeAre(), today());
}
