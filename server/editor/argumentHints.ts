import { type InlayHint, InlayHintKind } from 'vscode-languageserver';
import type { Block } from '../syntax/tree.ts';
import type { Program } from '../workspace/program.ts';
import { argumentsOfCall } from './callArguments.ts';
import { macroCallOf } from './macroCall.ts';

/** Before each argument of a call: what the subroutine takes it for. */
export function argumentHints(program: Program, block: Block, line: number): InlayHint[] {
  return [...bracketHints(program, block, line), ...letterHints(program, block, line)];
}

function bracketHints(program: Program, block: Block, line: number): InlayHint[] {
  return block.items.flatMap((item) => {
    if (item.kind !== 'flow' || item.form !== 'o-word' || item.keyword !== 'call' || item.label === null)
      return [];
    const known = argumentsOfCall(program, item.label);
    if (!known) return [];
    return item.arguments.flatMap(({ start }, index) => hint(line, start, known[index]?.name, index + 1));
  });
}

function letterHints(program: Program, block: Block, line: number): InlayHint[] {
  const call = macroCallOf(block, program.source.dialect);
  if (!call?.handsOn || call.program === null) return [];
  const known = argumentsOfCall(program, call.program);
  if (!known) return [];
  return call.words.flatMap((word) => {
    const argument = known.find(({ letter }) => letter === word.letter);
    return argument ? hint(line, word.start, argument.name, argument.number) : [];
  });
}

function hint(line: number, character: number, name: string | null | undefined, number: number): InlayHint[] {
  return [
    {
      position: { line, character },
      label: `${name ?? `#${number}`}:`,
      kind: InlayHintKind.Parameter,
      paddingRight: true,
    },
  ];
}
