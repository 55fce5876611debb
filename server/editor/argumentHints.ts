import { type InlayHint, InlayHintKind } from 'vscode-languageserver';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';
import { argumentsOf, subroutineNamed } from './callArguments.ts';
import { macroCallOf } from './macroCall.ts';

/** Before each argument of a call: what the subroutine takes it for. */
export function argumentHints(source: Source, block: Block, line: number): InlayHint[] {
  return [...bracketHints(source, block, line), ...letterHints(source, block, line)];
}

function bracketHints(source: Source, block: Block, line: number): InlayHint[] {
  return block.items.flatMap((item) => {
    if (item.kind !== 'flow' || item.form !== 'o-word' || item.keyword !== 'call' || item.label === null)
      return [];
    const procedure = subroutineNamed(source, item.label);
    if (!procedure) return [];
    const known = argumentsOf(source, procedure);
    return item.arguments.flatMap(({ start }, index) => hint(line, start, known[index]?.name, index + 1));
  });
}

function letterHints(source: Source, block: Block, line: number): InlayHint[] {
  const call = macroCallOf(block, source.dialect);
  if (call === null || call.code !== 'G65' || call.program === null) return [];
  const procedure = subroutineNamed(source, call.program);
  if (!procedure) return [];
  const known = argumentsOf(source, procedure);
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
