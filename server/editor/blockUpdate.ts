import type { CodeAction, CodeLens, Range } from 'vscode-languageserver';
import { bringUpToDateCommand, type RoutineUpdate } from '../protocol/requests.ts';
import type { Program } from '../workspace/program.ts';
import { quickFixKind } from './actionKinds.ts';
import { lineEndingOf } from './allowHere.ts';
import type { ClientFacts } from './clientFacts.ts';
import { fileStyle, inStyle } from './fileStyle.ts';
import { usedLabels } from './routinePlace.ts';
import { agedBlocks, type WrittenBlock } from './writtenBlocks.ts';

/** Over each written routine that the profile would give otherwise now. */
export function ageLenses(program: Program, client: ClientFacts): CodeLens[] {
  return agedBlocks(program).map((block) => {
    const canDo = client.commands.has(bringUpToDateCommand) && 'lines' in block.now;
    const command = canDo
      ? { command: bringUpToDateCommand, arguments: [program.uri, block.from] }
      : { command: '' };
    return { range: rangeAt(program, block.from), command: { title: words(block), ...command } };
  });
}

/** For the written routines that a range meets. */
export function ageActions(program: Program, range: Range): CodeAction[] {
  return agedBlocks(program).flatMap((block) => {
    const edit = editOf(program, block);
    if (!edit || block.to <= range.start.line || block.from > range.end.line) return [];
    const name = block.routine.title.toLowerCase();
    const title = block.isEdited
      ? `Write this ${name} anew: what was changed by hand in it is lost`
      : `Bring this ${name} up to date (${block.changes.join(', ')})`;
    return [{ title, kind: quickFixKind, edit: { changes: { [program.uri]: [edit] } } }];
  });
}

/** What to do about the routine at a line; null: nothing. */
export function routineUpdate(program: Program, line: number): RoutineUpdate | null {
  const block = agedBlocks(program).find(({ from, to }) => line >= from && line < to);
  const edit = block && editOf(program, block);
  return block && edit
    ? { title: block.routine.title, isEdited: block.isEdited, version: program.version, edit }
    : null;
}

function words({ routine, isEdited, changes, now }: WrittenBlock): string {
  if ('reason' in now) return `${routine.title}: ${changes.join(', ')}`;
  const said = `the profile now gives ${changes.join(' and ')}`;
  return isEdited
    ? `${routine.title}: changed by hand, and ${said}. Compare`
    : `${routine.title}: ${said}. Bring it up to date`;
}

function editOf(program: Program, { from, to, now }: WrittenBlock) {
  if ('reason' in now) return null;
  const { source } = program;
  const style = fileStyle(source);
  const first = source.text.line(from);
  const [, ownNumber] = firstNumber(program, from, to) ?? [];
  const numbers = style.numbers && { ...style.numbers, next: Number(ownNumber ?? style.numbers.next) };
  const indent = source.dialect.oWords ? (/^[ \t]*/.exec(first)?.[0] ?? '') : '';
  const taken = usedLabels(source, (line) => line < from || line >= to);
  const lines = inStyle(now.lines, { ...style, numbers }, { indent, taken });
  const last = to - 1;
  return {
    range: {
      start: { line: from, character: 0 },
      end: { line: last, character: source.text.line(last).length },
    },
    newText: lines.join(lineEndingOf(source)),
  };
}

/** The N number of the first numbered block that is no label: the routine keeps its numbers. */
function firstNumber({ source }: Program, from: number, to: number): RegExpExecArray | null {
  for (let line = from; line < to; line++) {
    const found = /^\s*n\s*(\d+)/i.exec(source.text.line(line));
    if (found) return found;
  }
  return null;
}

function rangeAt({ source }: Program, line: number): Range {
  return { start: { line, character: 0 }, end: { line, character: source.text.line(line).length } };
}
