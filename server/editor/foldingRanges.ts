import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import type { Program } from '../workspace/program.ts';
import { stretches } from './nesting.ts';

export function foldingRanges({ source }: Program): FoldingRange[] {
  return stretches(source).map(({ from, to, kind }) => ({
    startLine: from,
    endLine: to,
    ...(kind === 'comment' ? { kind: FoldingRangeKind.Comment } : {}),
  }));
}
