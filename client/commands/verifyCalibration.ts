import * as vscode from 'vscode';
import type { LanguageClient } from 'vscode-languageclient/node';
import {
  type PlanVerificationParams,
  type PlanVerificationResult,
  planVerification,
  type VerifyCalibrationParams,
  type VerifyCalibrationResult,
  verifyCalibration as verifyRequest,
} from '../../server/protocol/calibration.ts';
import type { Pages } from '../pages.ts';
import { askReference, chooseTable, openTable, touchedKinds } from './touchedReference.ts';
import { whereWeAre } from './whereWeAre.ts';

/** Whether the calibration of the profile still holds, by a few touches of a reference. */
export async function verifyCalibration(client: LanguageClient, pages: Pages): Promise<void> {
  const table = openTable() ?? (await touchesOrTable(client));
  if (!table) return;
  const reference = await askReference(touchedKinds.filter(({ label }) => label !== 'sphere'));
  if (!reference) return;
  const params: VerifyCalibrationParams = {
    uri: table.uri.toString(),
    text: table.getText(),
    ...reference,
  };
  const result = await client.sendRequest<VerifyCalibrationResult>(verifyRequest, params);
  if (result.kind === 'refused') {
    void vscode.window.showErrorMessage(`Not verified: ${result.problems.join(' ')}`);
    return;
  }
  await pages.showMade(result.page);
  const words = result.summary.charAt(0).toUpperCase() + result.summary.slice(1);
  if (result.holds) void vscode.window.showInformationMessage(words);
  else void vscode.window.showWarningMessage(words);
}

/** Touches that were made, or a table to make them by; that one ends it here. */
async function touchesOrTable(client: LanguageClient): Promise<vscode.TextDocument | undefined> {
  const made = { label: 'Touches that were made', detail: 'A table (CSV) of two opposite touches or more' };
  const toMake = {
    label: 'A table to fill in',
    detail: 'Two opposite touches along X and along Y; where the spindle turns, those along X again at 90°',
  };
  const chosen = await vscode.window.showQuickPick([made, toMake], {
    title: 'Does the calibration still hold?',
    ignoreFocusOut: true,
  });
  if (chosen === made) return chooseTable('Verify by these');
  if (chosen !== toMake) return undefined;
  const params: PlanVerificationParams = { uri: whereWeAre() };
  const { table } = await client.sendRequest<PlanVerificationResult>(planVerification, params);
  const document = await vscode.workspace.openTextDocument({ content: table });
  await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
  return undefined;
}
