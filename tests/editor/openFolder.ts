import type { Position, WorkspaceEdit } from 'vscode-languageserver';
import { type Surroundings, surroundings } from '../../server/editor/surroundings.ts';
import { CalledFileFinder } from '../../server/workspace/calledFiles.ts';
import { noProfileFile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import type { Program } from '../../server/workspace/program.ts';
import { ProgramTexts } from '../../server/workspace/programTexts.ts';
import { edited } from './openProgram.ts';

export interface OpenFolder {
  readonly around: Surroundings;
  readonly open: readonly Program[];
  readonly caret: Position;
  readonly files: Readonly<Record<string, string>>;
}

const folder = 'file:///job/';

/**
 * Files by name; those whose name begins with `+` are open in the editor, and so is the one with the caret, `|`, which
 * is taken out. The others are on the disk.
 */
export async function openFolder(marked: Readonly<Record<string, string>>): Promise<OpenFolder> {
  const names = Object.keys(marked);
  const active = names.find((name) => marked[name]?.includes('|')) ?? names[0] ?? '';
  const files = Object.fromEntries(
    names.map((name) => [name.replace(/^\+/, ''), (marked[name] ?? '').replace('|', '')]),
  );
  const documents = new Map(
    names
      .filter((name) => name === active || name.startsWith('+'))
      .map((name) => name.replace(/^\+/, ''))
      .map((name) => [folder + name, OpenDocument.open(folder + name, 'gcode', 1, files[name] ?? '')]),
  );
  const texts = new ProgramTexts(
    { read: async (uri) => files[decodeURIComponent(uri.slice(folder.length))] ?? null },
    (uri) => documents.get(uri) ?? null,
    () => 0,
  );
  const finder = new CalledFileFinder(texts);
  const open = await Promise.all(
    [...documents.values()].map(async (document) => {
      const source = document.sourceUnder(noProfileFile);
      return document.program(noProfileFile, await finder.of(document.uri, source));
    }),
  );
  const program = open.find(({ uri }) => uri === folder + active.replace(/^\+/, ''));
  if (!program) throw new Error('No file is open.');
  const before = (marked[active] ?? '').split('|')[0]?.split('\n') ?? [];
  const caret = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  return { around: surroundings(program, open), open, caret, files };
}

/** `part.ngc 3:0`: a place as tests name it, line and character 0-based. */
export function placeName({ uri, range }: { uri: string; range: { start: Position } }): string {
  return `${uri.slice(folder.length)} ${range.start.line}:${range.start.character}`;
}

/** The files after an edit, renamed files under their new names. */
export function filesAfter(
  files: Readonly<Record<string, string>>,
  { changes, documentChanges }: WorkspaceEdit,
): Record<string, string> {
  const after: Record<string, string> = { ...files };
  const nameOf = (uri: string) => decodeURIComponent(uri.slice(folder.length));
  for (const [uri, edits] of Object.entries(changes ?? {}))
    after[nameOf(uri)] = edited(after[nameOf(uri)] ?? '', edits);
  for (const change of documentChanges ?? []) {
    if ('edits' in change) {
      const name = nameOf(change.textDocument.uri);
      after[name] = edited(after[name] ?? '', change.edits as Parameters<typeof edited>[1]);
    } else if (change.kind === 'rename') {
      after[nameOf(change.newUri)] = after[nameOf(change.oldUri)] ?? '';
      delete after[nameOf(change.oldUri)];
    }
  }
  return after;
}
