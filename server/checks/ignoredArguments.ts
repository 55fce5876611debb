import type { Block, Word } from '../syntax/tree.ts';
import { codesIn, wordsOf } from './blockFacts.ts';
import type { Rule } from './rule.ts';

export const ignoredArguments: Rule = {
  id: 'ignored-arguments',
  severity: 'warning',
  title: 'words behind a call that takes none',
  what: 'Behind M98 or M97 stand words that look like arguments. These calls take the subprogram and a count, nothing else; axis words that stand before the call, to move first, are not reported.',
  why: 'The control executes the words in this block: an X that was meant as an argument moves the axis, and the subprogram works on what its variables held before.',
  instead:
    'Call with G65, which hands the words on as #1 to #26, or set the variables in a block before the call.',
  source: 'common practice, no source',
  fails: [{ dialect: 'macro', program: 'G21 G90 G94\nM98 P9100 A1. B20.\nM30\n' }],
  passes: [{ dialect: 'macro', program: 'G21 G90 G94\nG65 P9100 A1. B20.\nG0 X5. Y5. M98 P9200 L2\nM30\n' }],
  *checkBlock(block, line) {
    const call = codesIn(block).find(({ code }) => code === 'M98' || code === 'M97');
    if (!call) return;
    const [first, ...more] = wordsBehind(block, call.word);
    if (!first) return;
    const letters = [...new Set([first, ...more].map(({ letter }) => letter))];
    yield {
      message: `${call.code} hands on no arguments: the control executes ${letters.join(', ')} in this block, and the subprogram does not get ${letters.length > 1 ? 'them' : 'it'}.`,
      place: { line, start: first.start, end: (more.at(-1) ?? first).end },
      related: [{ message: 'the call', place: { line, start: call.word.start, end: call.word.end } }],
    };
  },
};

/** Subprogram, count, sequence number; what turns, cools and feeds is executed as it is meant. */
const taken = new Set(['P', 'L', 'Q', 'H', 'G', 'M', 'N', 'S', 'F', 'T']);

function wordsBehind(block: Block, call: Word): Word[] {
  const words = wordsOf(block);
  // A motion that the block names itself is meant as one.
  const moves = words.some(
    ({ letter, value }) => letter === 'G' && value.kind === 'number' && value.value < 4,
  );
  if (moves) return [];
  return words.filter(({ letter, start }) => start > call.start && !taken.has(letter));
}
