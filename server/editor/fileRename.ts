import type { FileRename, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { beside, comparable } from '../workspace/address.ts';
import { callNameOf } from '../workspace/calledFileNames.ts';
import { fileName } from '../workspace/documentKind.ts';
import { type KnownProgram, relatedPrograms } from '../workspace/relatedPrograms.ts';
import { nameClash } from './nameClash.ts';
import { nameOccurrences } from './nameOccurrences.ts';
import { newName } from './newName.ts';
import { renameText } from './renameText.ts';

/**
 * The edits that keep calls leading to files that are about to be renamed: the subroutine in a file and its calls in
 * known programs take the file's new name. Nothing for a file that moves into another folder, where no call finds it.
 */
export function fileRenameEdits(
  files: readonly FileRename[],
  known: readonly KnownProgram[],
): WorkspaceEdit | null {
  const changes = new Map<string, TextEdit[]>();
  for (const file of files)
    for (const { uri, edit } of editsFor(file, known)) changes.set(uri, [...(changes.get(uri) ?? []), edit]);
  return changes.size === 0 ? null : { changes: Object.fromEntries(changes) };
}

function editsFor(
  { oldUri, newUri }: FileRename,
  known: readonly KnownProgram[],
): { readonly uri: string; readonly edit: TextEdit }[] {
  const to = fileName(newUri);
  const program = known.find(({ uri }) => comparable(uri) === comparable(oldUri));
  if (!program || comparable(beside(oldUri, to) ?? '') !== comparable(newUri)) return [];
  const { dialect } = program.source;
  const [oldName, callName] = [callNameOf(fileName(oldUri), dialect.name), callNameOf(to, dialect.name)];
  const callee = oldName === null ? null : program.callee(oldName);
  if (oldName === null || callName === null || !callee || comparable(callee.uri) !== comparable(oldUri))
    return [];
  const name = { kind: 'subroutine', name: oldName } as const;
  const given = newName(dialect.oWords ? to.replace(/\.[^.]+$/, '') : callName, name, dialect);
  const related = relatedPrograms(program.uri, known);
  if ('refused' in given || given.name === oldName) return [];
  if (nameClash(name, given, { program, related, namedByProfile: null }) !== null) return [];
  return nameOccurrences(name, program, related).map((each) => ({
    uri: each.uri,
    edit: renameText(each, name, given),
  }));
}
