import type { SourceText } from '../syntax/sourceText.ts';
import { isBinary } from './documentKind.ts';

/** UTF-16 code units; VS Code itself hands no larger document to an extension. */
const mostCharacters = 50_000_000;

/** Why a text is not looked into, as a sentence; null: it is. */
export function notChecked(text: SourceText): string | null {
  if (text.length > mostCharacters) {
    return `This file is larger than ${mostCharacters / 1e6} million characters and is not checked here. The command line checks it: probewright check.`;
  }
  if (isBinary(startOf(text))) return 'This file is binary, not a program: it is not checked.';
  return null;
}

function startOf(text: SourceText): string {
  let start = '';
  for (let line = 0; line < text.lineCount && start.length < 8000; line++)
    start += text.line(line).slice(0, 8000);
  return start;
}
