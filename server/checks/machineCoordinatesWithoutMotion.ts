import { codesInForce, type ModesBefore, modesAbove } from '../analysis/modesAbove.ts';
import { isAxisWord } from '../program/state.ts';
import { ChunkFacts } from '../syntax/chunkFacts.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Block } from '../syntax/tree.ts';
import { codesIn, hasCode, wordsOf } from './blockFacts.ts';
import type { Report, Rule } from './rule.ts';

export const machineCoordinatesWithoutMotion: Rule = {
  id: 'machine-coordinates-without-motion',
  severity: 'warning',
  title: 'machine coordinates in a block that does not move by them',
  what: 'G53 stands in a block without axis words, or where neither G0 nor G1 is in force; in the macro family also under G91.',
  why: 'RS274/NGC raises an error. Other controls do nothing, or move by work coordinates or by distances: the retract that was meant goes somewhere else, or does not take place.',
  instead:
    'Write G0 or G1 and the axes into the block, and in the macro family G90. To cancel a shift or an offset there are codes of their own.',
  source:
    'NISTIR 6556, 3.5.12 (an error without G0 or G1; the words are machine coordinates under G91 too); the macro family under G91: common practice, no source',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG53\nG0 X5\nM2\n' },
    { dialect: 'macro', program: 'G21 G91 G94\nG53 G0 Z0.\nM30\n' },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'G21 G91 G94\nG53 G0 Z0\nG0\nG53 X0 Y0\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\nG53 G0 Z0.\nG90 G53 X0. Y0.\nM30\n' },
  ],
  *check({ analysis: { source, graphs } }) {
    yield* machineCoordinates.lookThrough(source);
    let above: ReturnType<typeof modesAbove> | null = null;
    for (const { firstLine, fact } of machineCoordinates.in(source))
      for (const { line: local, block } of fact) {
        const line = firstLine + local;
        if (source.classOf(line) !== 2) continue;
        above ??= modesAbove(source, graphs);
        const own = codesInForce(block, source.dialect.name);
        const before = above.before(line);
        if (own) yield* report(block, line, { ...before, ...own }, source.dialect.name === 'macro');
      }
  },
};

function* report(block: Block, line: number, modes: ModesBefore, isMacro: boolean): Iterable<Report> {
  const word = codesIn(block).find(({ code }) => code === 'G53')?.word;
  if (!word) return;
  const place = { line, start: word.start, end: word.end };
  const moves = wordsOf(block).some(({ letter }) => isAxisWord(letter));
  const { motion } = modes;
  // G28 and its kin take the axis words of the block for themselves.
  if (hasCode(block, ['G28', 'G30', 'G10', 'G92', 'G52', 'G65', 'G66', 'G66.1'])) return;
  if (!moves)
    yield {
      message: 'G53 moves nothing here: the block has no axis word. It is in force for its own block alone.',
      place,
    };
  else if (motion !== null && motion !== 'G0' && motion !== 'G1')
    yield {
      message: `${motion} is in force at this G53, which goes with G0 and G1 alone: the control stops with an alarm, or does not move by machine coordinates.`,
      place,
    };
  else if (isMacro && modes.distance === 'G91')
    yield {
      message:
        'G91 is in force at this G53: some controls leave G53 out then and take the words as distances, others go to the machine position.',
      place,
    };
}

const machineCoordinates = new ChunkFacts<readonly { readonly line: number; readonly block: Block }[]>(
  (chunk, lines, dialect) => {
    const found = lines.flatMap((line) => {
      const text = chunk.line(line);
      if (!/g[\s0]*5[\s]*3/i.test(text)) return [];
      const block = parseBlock(text, dialect);
      return hasCode(block, ['G53']) ? [{ line, block }] : [];
    });
    return found.length > 0 ? found : null;
  },
);
