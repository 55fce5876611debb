import { CodeActionKind } from 'vscode-languageserver';

/** Every fix that moves no axis, at once. */
export const fixAllKind = `${CodeActionKind.SourceFixAll}.probewright`;
