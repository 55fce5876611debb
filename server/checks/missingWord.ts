import { type ModesBefore, modesAbove, nothingAbove } from '../analysis/modesAbove.ts';
import { codesOf } from '../program/codes.ts';
import { type MissingWord, missingWords } from '../program/missingWords.ts';
import { isAxisWord } from '../program/state.ts';
import { unusedWords } from '../program/unusedWords.ts';
import { ChunkFacts } from '../syntax/chunkFacts.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Place } from '../syntax/place.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { hasCode } from './blockFacts.ts';
import { movesWithoutTime } from './inverseTimeFeeds.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const missingWord: Rule = {
  id: 'missing-word',
  severity: 'error',
  title: 'a code without a word that it needs',
  what: 'A code stands without one of the words that it can’t do without: a dwell without its time, G10 without L or P, a drilling cycle without its depth, an arc without centre or radius, a touch without an axis. In rs274ngc also the other way round: a word such as P or K, and no code in the block or in force that takes it.',
  why: 'The control stops with an alarm at this block, or takes a value that some earlier block left behind.',
  instead: 'Write the word, or take the code out.',
  source:
    'NISTIR 6556, 3.5.3 (arcs), 3.5.4 (dwell), 3.5.5 (G10), 3.5.9 (touches), 3.5.16 (cycles), 3.5.19 (inverse time); the macro family’s codes: common practice, no source',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG4\nM2\n' },
    { dialect: 'rs274ngc', program: 'G17 G21 G90 G94\nG0 X0 Y0\nG83 X5 Y5 Z-10 R2 F100\nG80\nM2\n' },
    { dialect: 'macro', program: 'G17 G21 G90 G94\nG1 X0. F100.\nG2 X5. Y5.\nM30\n' },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: 'G17 G21 G90 G94\nG4 P0.5\nG0 X0 Y0\nG83 X5 Y5 Z-10 R2 Q1 F100\nX9\nG80\nM2\n',
    },
    {
      dialect: 'macro',
      program: 'G17 G21 G90 G94\nG4 X1.\nG1 X0. F100.\nG2 X5. Y5. R5.\nG65 P9100 A1.\nM30\n',
    },
  ],
  *checkBlock(block, line, context) {
    for (const missing of lacking(block, nothingAbove, context)) yield report(block, line, missing);
  },
  *check(context) {
    const { source, graphs } = context.analysis;
    yield* dependingBlocks.lookThrough(source);
    let above: ReturnType<typeof modesAbove> | null = null;
    for (const { firstLine, fact } of dependingBlocks.in(source))
      for (const { line: local, block } of fact) {
        const line = firstLine + local;
        if (source.classOf(line) !== 2) continue;
        above ??= modesAbove(source, graphs);
        const before = { ...above.before(line), feedMode: null };
        const told = new Set(lacking(block, nothingAbove, context).map(keyOf));
        for (const missing of lacking(block, before, context))
          if (!told.has(keyOf(missing))) yield report(block, line, missing);
        if (context.isDialectCertain())
          for (const word of unusedWords(block, source.dialect.name, before.motion))
            yield unused(word, { line, start: word.start, end: word.end });
      }
    for (const { line, code } of movesWithoutTime(source))
      yield report(source.block(line), line, { code, word: null, letters: ['F'] });
  },
};

/** What G53 lacks and a touch on a rotary axis alone are other rules’. Where the dialect is a guess, what the other one takes is no fault. */
function lacking(block: Block, before: ModesBefore, context: CheckContext): readonly MissingWord[] {
  const { name } = context.analysis.source.dialect;
  const own = missingWords(block, { ...before, dialect: name }).filter(
    ({ code, word }) =>
      code !== 'G53' &&
      !(word === null && hasCode(block, ['G53'])) &&
      !(code.startsWith('G38.') && turns(block)),
  );
  if (own.length === 0 || context.isDialectCertain()) return own;
  const other: DialectName = name === 'macro' ? 'rs274ngc' : 'macro';
  const there = missingWords(block, { ...before, dialect: other });
  return own.filter(({ code }) => !isCodeOf(code, other) || there.some((missing) => missing.code === code));
}

function isCodeOf(code: string, dialect: DialectName): boolean {
  return codesOf(dialect).some((each) => each.code === code);
}

function turns(block: Block): boolean {
  return block.items.some((item) => item.kind === 'word' && /^[ABC]$/.test(item.letter));
}

function keyOf({ code, letters }: MissingWord): string {
  return `${code} ${letters.join()}`;
}

function report(block: Block, line: number, { code, word, letters }: MissingWord): Report {
  const first = block.items.find((item) => item.kind === 'word');
  const { start, end } = word ?? first ?? { start: 0, end: block.text.length };
  if (code === 'G10' && letters.includes('X'))
    return {
      message: 'G10 L20 stands without an axis word: it writes nothing.',
      place: { line, start, end },
      severity: 'warning',
    };
  const stands = word ? `${code} stands` : `${code} is in force, and this block stands`;
  return {
    message: `${stands} without ${named(letters)}: the control stops with an alarm here, or takes what an earlier block left behind.`,
    place: { line, start, end },
  };
}

function unused({ letter }: Word, place: Place): Report {
  return {
    message: `No code of this block, and none in force, takes the word ${letter}: RS274/NGC raises an error; perhaps its code is missing.`,
    place,
  };
}

function named(letters: readonly string[]): string {
  const axes = letters.filter(isAxisWord);
  const others = axes.length > 2 ? letters.filter((letter) => !axes.includes(letter)) : letters;
  const words = axes.length > 2 ? [...others, 'an axis word'] : [...others];
  const last = words.pop() ?? '';
  return words.length > 0 ? `${words.join(', ')} or ${last}` : last;
}

/**
 * Blocks of which only what stands above can tell whether they lack something, or have a word too many. Plain ones are not
 * among them: an arc of which a million lines are made is taken to have its centre.
 */
const dependingBlocks = new ChunkFacts<readonly { readonly line: number; readonly block: Block }[]>(
  (chunk, lines, dialect) => {
    const found = lines.flatMap((line) => {
      const text = chunk.line(line);
      if (!mayDepend.test(text)) return [];
      const block = parseBlock(text, dialect);
      return depends(block, dialect.name) ? [{ line, block }] : [];
    });
    return found.length > 0 ? found : null;
  },
);

/** Axes, or a letter that means nothing alone. */
const mayDepend = /[xyzabcuvwdhijklpqr@^]\s*[-+\d.#[]|g[\s0]*[78]/i;

function depends(block: Block, dialect: DialectName): boolean {
  const lacks = (motion: string, plane: string | null): boolean =>
    missingWords(block, { motion, plane, feedMode: null, dialect }).length > 0;
  return (
    lacks('G2', null) ||
    ['G17', 'G18', 'G19'].some((plane) => lacks('G0', plane)) ||
    unusedWords(block, dialect, 'G80').length > 0
  );
}
