import * as vscode from 'vscode';
import type { TouchedKind } from '../../server/protocol/calibration.ts';
import { readSize, sizeFault } from './sizes.ts';

/** What can be touched, as a person picks it. */
export const touchedKinds: readonly (vscode.QuickPickItem & { readonly label: TouchedKind })[] = [
  { label: 'ring', detail: 'A ring gauge, touched from inside all round: effective diameter and lobes' },
  { label: 'plug', detail: 'A plug gauge or a pin, touched from outside all round' },
  { label: 'gap', detail: 'Two faces, touched from between them: one axis' },
  { label: 'block', detail: 'A gauge block, touched on two opposite sides: one axis' },
  { label: 'sphere', detail: 'A reference sphere, touched on top and all round: lateral and axial radius' },
];

/** What was touched: sizes in the unit of the profile. */
export interface TouchedReference {
  readonly kind: TouchedKind;
  readonly size: number;
  readonly expandedUncertainty: number | null;
}

/** undefined: the person left. */
export async function askReference(
  kinds: readonly (typeof touchedKinds)[number][],
): Promise<TouchedReference | undefined> {
  const kind = await vscode.window.showQuickPick(kinds, {
    title: 'What was touched?',
    ignoreFocusOut: true,
  });
  if (!kind) return undefined;
  const size = await askSize(
    'How large is it?',
    'Its certified diameter or width, in the unit of the probe profile.',
    true,
  );
  if (size === undefined) return undefined;
  const sure = await askSize(
    'How well is that known?',
    'Expanded uncertainty (k = 2) from its certificate, in the same unit. Leave it empty where it is not known.',
    false,
  );
  return sure === undefined ? undefined : { kind: kind.label, size: size ?? 0, expandedUncertainty: sure };
}

/** null: left empty; undefined: the person left. */
export async function askSize(
  title: string,
  prompt: string,
  isNeeded: boolean,
): Promise<number | null | undefined> {
  const typed = await vscode.window.showInputBox({
    title,
    prompt,
    ignoreFocusOut: true,
    validateInput: (text) => sizeFault(text, isNeeded),
  });
  return typed === undefined ? undefined : readSize(typed);
}

/** The table of touches in the editor, if one stands there. */
export function openTable(): vscode.TextDocument | undefined {
  const open = vscode.window.activeTextEditor?.document;
  return open && /\.csv$/i.test(open.uri.path) ? open : undefined;
}

/** One that the person chooses. */
export async function chooseTable(openLabel: string): Promise<vscode.TextDocument | undefined> {
  const chosen = await vscode.window.showOpenDialog({
    title: 'Which touches?',
    openLabel,
    filters: { 'Touches (CSV)': ['csv'] },
  });
  return chosen?.[0] && vscode.workspace.openTextDocument(chosen[0]);
}
