import type { ClientCapabilities, Position } from 'vscode-languageserver';
import { type ClientFacts, clientFacts } from '../../server/editor/clientFacts.ts';
import type { InitializationOptions } from '../../server/protocol/requests.ts';
import { fileProfile, noProfileFile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import type { Program } from '../../server/workspace/program.ts';

export const uri = 'file:///job/part.ngc';

/** A program as an editor has it open; `|` marks the caret and is taken out. */
export function openProgram(
  marked: string,
  profile?: object | string,
): { program: Program; caret: Position } {
  const at = marked.indexOf('|');
  const text = at < 0 ? marked : marked.slice(0, at) + marked.slice(at + 1);
  const before = marked.slice(0, Math.max(0, at)).split('\n');
  const caret = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  const profileText = typeof profile === 'string' ? profile : JSON.stringify(profile);
  const fileOf =
    profile === undefined ? noProfileFile : fileProfile('file:///job/probewright.json', profileText);
  return { program: OpenDocument.open(uri, 'gcode', 1, text).program(fileOf), caret };
}

const everything: ClientCapabilities = {
  textDocument: {
    hover: { contentFormat: ['markdown', 'plaintext'] },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } },
    publishDiagnostics: {
      relatedInformation: true,
      codeDescriptionSupport: true,
      tagSupport: { valueSet: [1, 2] },
    },
    diagnostic: {},
  },
};

/** An editor that can do all that we make use of. */
export const capable: ClientFacts = clientOf({
  offersFiles: true,
  commands: ['probewright.explainRule', 'probewright.allowHere'],
  ruleLink: 'command:probewright.explainRule?%5B%22{rule}%22%5D',
  pictures: true,
});

export function clientOf(
  options: InitializationOptions,
  capabilities: ClientCapabilities = everything,
): ClientFacts {
  return clientFacts({ capabilities, initializationOptions: options });
}

/** The text after edits in LSP's manner: all places are of the text before. */
export function edited(
  text: string,
  edits: readonly { range: { start: Position; end: Position }; newText: string }[],
): string {
  const lines = text.split('\n');
  const offset = ({ line, character }: Position) =>
    lines.slice(0, line).reduce((sum, each) => sum + each.length + 1, 0) + character;
  const backwards = [...edits].sort((a, b) => offset(b.range.start) - offset(a.range.start));
  return backwards.reduce(
    (result, { range, newText }) =>
      result.slice(0, offset(range.start)) + newText + result.slice(offset(range.end)),
    text,
  );
}
