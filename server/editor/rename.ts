import type { Position, PrepareRenameResult, TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { proceduresOf } from '../analysis/procedures.ts';
import { beside } from '../workspace/address.ts';
import { calledFileNames, callNameOf } from '../workspace/calledFileNames.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { Callee } from '../workspace/relatedPrograms.ts';
import { nameClash } from './nameClash.ts';
import type { NameFacts } from './nameFacts.ts';
import { nameOccurrences, type Occurrence } from './nameOccurrences.ts';
import type { Name } from './names.ts';
import { type NewName, newName } from './newName.ts';
import { rangeOf } from './ranges.ts';
import { type Refusal, renameTarget } from './renameTarget.ts';
import { renameText } from './renameText.ts';
import type { Surroundings } from './surroundings.ts';

/** What renaming needs to know of the world. */
export interface RenameWorld {
  readonly client: NameFacts;
  /** Of an open document; null: not open. */
  version(uri: string): number | null;
  fileExists(uri: string): Promise<boolean>;
}

export function prepareRename(around: Surroundings, position: Position): PrepareRenameResult | Refusal {
  const target = renameTarget(around, position);
  if ('refused' in target) return target;
  const { place } = target;
  const placeholder = around.program.source.block(place.line).text.slice(place.start, place.end).trim();
  return { range: rangeOf(place), placeholder };
}

/** The edits that give a name another wherever it means the same; the file of a subroutine follows. */
export async function rename(
  around: Surroundings,
  position: Position,
  typed: string,
  world: RenameWorld,
): Promise<WorkspaceEdit | Refusal> {
  const target = renameTarget(around, position);
  if ('refused' in target) return target;
  const { name } = target;
  const { program, related } = around;
  const to = newName(typed, name, program.source.dialect);
  if ('refused' in to) return to;
  const clash = to.name === name.name ? null : nameClash(name, to, around);
  if (clash !== null) return { refused: clash };
  const occurrences = nameOccurrences(name, program, related);
  const tooLong = occurrences.find((each) => lineTooLong(each, name, to));
  if (tooLong) return { refused: `Line ${tooLong.place.line + 1} would get longer than a block may be.` };
  const file = name.kind === 'subroutine' ? await followingFile(name, to, around, world) : null;
  if (file && 'refused' in file) return file;
  const edits = occurrences.map((each) => ({ uri: each.uri, edit: renameText(each, name, to) }));
  return workspaceEdit(edits, file, world);
}

function lineTooLong(occurrence: Occurrence, name: Name, to: NewName): boolean {
  const { source, place } = occurrence;
  const most = source.dialect.maximumLineLength;
  if (most === null) return false;
  const { range, newText } = renameText(occurrence, name, to);
  const before = source.block(place.line).text.length;
  const after = before + newText.length - (range.end.character - range.start.character);
  return after > before && after > most;
}

interface FileRename {
  readonly from: string;
  readonly to: string;
}

/** The file that is named after the subroutine has to go by the new name, or no call finds it. */
async function followingFile(
  name: Extract<Name, { kind: 'subroutine' }>,
  to: NewName,
  { program }: Surroundings,
  world: RenameWorld,
): Promise<FileRename | Refusal | null> {
  const callee = program.callee(name.name);
  if (!callee || to.name === name.name || !isNamedAfter(callee, name.name)) return null;
  const from = fileName(callee.uri);
  const target = beside(callee.uri, fileNameFor(from, to.name, callee));
  if (target === null) return null;
  if (!world.client.renamesFiles)
    return {
      refused: `The file ${from} is named after this subroutine, and this editor does not rename files along: rename the file first.`,
    };
  if (await world.fileExists(target)) return { refused: `There is a file ${fileName(target)} already.` };
  return { from: callee.uri, to: target };
}

/** A file with a main program of its own is not there for the subroutine alone. */
function isNamedAfter({ uri, source, procedure }: Callee, name: string): boolean {
  const { main } = proceduresOf(source);
  if (main !== null && main !== procedure) return false;
  return callNameOf(fileName(uri), source.dialect.name) === name;
}

function fileNameFor(from: string, name: string, { source }: Callee): string {
  if (source.dialect.name === 'rs274ngc') {
    const [first] = calledFileNames({ name, written: name }, 'rs274ngc', from);
    return first ?? `${name}.ngc`;
  }
  return from.replace(/\d+/, (digits) => name.padStart(digits.startsWith('0') ? digits.length : 1, '0'));
}

function workspaceEdit(
  edits: readonly { readonly uri: string; readonly edit: TextEdit }[],
  file: FileRename | null,
  { client, version }: RenameWorld,
): WorkspaceEdit {
  const byFile = new Map<string, TextEdit[]>();
  for (const { uri, edit } of edits) byFile.set(uri, [...(byFile.get(uri) ?? []), edit]);
  if (!client.versionedEdits) return { changes: Object.fromEntries(byFile) };
  // The file goes first: some clients carry out what is done to files before edits of text, whatever the order.
  const placed = (uri: string) =>
    uri === file?.from ? { uri: file.to, version: null } : { uri, version: version(uri) };
  return {
    documentChanges: [
      ...(file ? [{ kind: 'rename' as const, oldUri: file.from, newUri: file.to }] : []),
      ...[...byFile].map(([uri, each]) => ({ textDocument: placed(uri), edits: each })),
    ],
  };
}
