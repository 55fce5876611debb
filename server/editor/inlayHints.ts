import { type InlayHint, InlayHintKind, MarkupKind, type Range } from 'vscode-languageserver';
import type { StateView } from '../analysis/analysis.ts';
import { takesEveryWord } from '../program/codeWords.ts';
import { parameterMeaning } from '../program/parameterMeaning.ts';
import { isAxisWord } from '../program/state.ts';
import { quantities } from '../report/quantities.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, Item } from '../syntax/tree.ts';
import type { Program } from '../workspace/program.ts';
import { argumentHints } from './argumentHints.ts';
import { bareSpan } from './bareSpan.ts';
import { codesOfBlock } from './blockCodes.ts';
import { isTouchCode } from './blockTokens.ts';
import { unitsAt } from './modesInForce.ts';
import type { NotesLevel } from './notes.ts';
import { parameterName, shownParameter } from './parameterName.ts';
import { shortMeaning } from './shortMeaning.ts';
import { parametersOf } from './wordAt.ts';

/** Lines that one answer looks at; an editor asks for what is on its screen. */
const mostLines = 2000;

/**
 * What a block means but does not say. `minimal`: the modes and the feed of a touch where they were set elsewhere, and
 * what a parameter of the control holds. `all`: the modes of every moving block, and the arguments of calls.
 */
export function inlayHints(program: Program, range: Range, level: NotesLevel): InlayHint[] {
  if (level === 'off') return [];
  const { source } = program;
  const from = Math.max(0, range.start.line);
  const to = Math.min(source.lineCount, range.end.line + 1, from + mostLines);
  const hints: InlayHint[] = [];
  for (let line = from; line < to; line++) {
    if (source.classOf(line) < (level === 'all' ? 1 : 2)) continue;
    const block = source.block(line);
    hints.push(...parameterHints(block, line, source, level));
    if (level === 'all') hints.push(...argumentHints(program, block, line));
    const mode = modeHint(program, block, line, level);
    if (mode) hints.push(mode);
  }
  return hints;
}

/** Adds what an editor shows when the pointer rests on a hint. */
export function resolveInlayHint(hint: InlayHint): InlayHint {
  const about = hint.data as { tooltip?: unknown } | null | undefined;
  if (typeof about?.tooltip !== 'string') return hint;
  return { ...hint, tooltip: { kind: MarkupKind.Markdown, value: about.tooltip } };
}

function parameterHints(block: Block, line: number, source: Source, level: NotesLevel): InlayHint[] {
  const seen = new Set<string>();
  const dialect = source.dialect.name;
  return block.items.flatMap((item) =>
    [...parametersOf(item)].flatMap(({ parameter }) => {
      const name = parameterName(parameter);
      const label = name === null ? null : shortMeaning(name, dialect);
      if (name === null || label === null || (level === 'minimal' && seen.has(name))) return [];
      seen.add(name);
      const title = parameterMeaning(name, dialect)?.title ?? label;
      return {
        position: { line, character: bareSpan(parameter, block.text).end },
        label,
        paddingLeft: true,
        paddingRight: true,
        data: { tooltip: `\`${shownParameter(name)}\` — ${title}` },
      };
    }),
  );
}

/** Behind the last word: what of distance mode, units and feed is in force and not written in the block. */
function modeHint(program: Program, block: Block, line: number, level: NotesLevel): InlayHint | null {
  const dialect = program.source.dialect.name;
  const codes = codesOfBlock(block);
  const touches = codes.some((code) => isTouchCode(code, dialect));
  const moves =
    level === 'all' && block.items.some(saysWhere) && !codes.some((code) => takesEveryWord(code, dialect));
  if (!touches && !moves) return null;
  const state = program.analysis.stateAt(line);
  if (!state) return null;
  const parts = unsaid(state, block, codes, program, { touches, level });
  const last = block.items.findLast((item) => item.kind !== 'comment');
  if (parts.length === 0 || !last) return null;
  return {
    position: { line, character: last.end },
    label: parts.join(' · '),
    kind: InlayHintKind.Type,
    paddingLeft: true,
    data: { tooltip: 'In force here, set before this block.' },
  };
}

function saysWhere(item: Item): boolean {
  return item.kind === 'word' && isAxisWord(item.letter);
}

function unsaid(
  { modes, feed }: StateView,
  block: Block,
  codes: readonly string[],
  program: Program,
  { touches, level }: { readonly touches: boolean; readonly level: NotesLevel },
): string[] {
  const parts: string[] = [];
  const own = program.profile.profile.units;
  const distance = onlyOne(modes.distance);
  if (distance && !['G90', 'G91', 'G53'].some((code) => codes.includes(code))) parts.push(distance);
  const units = onlyOne(modes.units);
  const hasFeed = block.items.some((item) => item.kind === 'word' && item.letter === 'F');
  if (touches && !hasFeed && feed !== null && !modes.feedMode.includes('G93')) {
    parts.push(`F ${quantities(unitsAt(modes, own)).feed(feed)}`);
  } else if (units && !codes.includes('G20') && !codes.includes('G21')) {
    // The shop's own unit surprises nobody.
    const isExpected = (units === 'G20') === (own === 'inch');
    if (level === 'all' || !isExpected) parts.push(units === 'G20' ? 'in' : 'mm');
  }
  return parts;
}

/** The code in force where all paths agree on one. */
function onlyOne(group: readonly string[]): string | null {
  const [only, ...others] = group;
  return only !== undefined && others.length === 0 && /^G\d/.test(only) ? only : null;
}
