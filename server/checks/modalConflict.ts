import { bothUseAxes, type Code, codeOf, conflicting, mostMWords } from '../program/codes.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { codesIn, wordsOf } from './blockFacts.ts';
import { removed } from './lineEdits.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const modalConflict: Rule = {
  id: 'modal-conflict',
  severity: 'error',
  title: 'two codes of one modal group in a block',
  what: 'The block holds two codes that exclude each other: of one modal group, as the dialect groups them. In rs274ngc the one-shot codes are such a group too; the macro family lets G80 stand with G0. In rs274ngc also a one-shot code that uses the axis words (G10, G28, G30, G92) beside a code of motion, and more than four M words.',
  why: 'RS274/NGC raises an error. Other controls take one of the two, mostly the last, and say nothing.',
  instead: 'Leave the one that is meant, or put them into two blocks.',
  source: 'NISTIR 6556, 3.3.5 and table 4; 3.4 for codes that both use the axis words',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG0 G1 X5 F100\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\nG90 G54 G91 G0 X5.\nM30\n' },
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nM3 M5\nM2\n' },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'G17 G21 G40 G49 G54 G80 G90 G94 G98\nM3 M8 S100\nM5 M9\nM2\n' },
    { dialect: 'macro', program: 'G0 G17 G21 G40 G49 G54 G80 G90 G94 G98\nG0 G28 G91 Z0.\nM30\n' },
  ],
  *checkBlock(block, line, context): Iterable<Report> {
    const dialect = context.analysis.source.dialect.name;
    yield* tooManyM(block, line, context);
    // One of each code: a line of a megabyte may repeat one without end.
    const taken = new Map<string, { word: Word; code: Code }>();
    for (const { word, letter, value } of codesIn(block)) {
      const code = codeOf(letter, value, dialect);
      if (!code) continue;
      const other = [...taken.values()].find(
        (each) => conflicting(each.code, code, dialect) || bothUseAxes(each.code, code, dialect),
      );
      if (other) yield report(block, line, other, { word, code });
      else if (!taken.has(code.code)) taken.set(code.code, { word, code });
    }
  },
};

/** Where the dialect is a guess, the other one may take any number of them. */
function* tooManyM(block: Block, line: number, context: CheckContext): Iterable<Report> {
  const most = mostMWords[context.analysis.source.dialect.name];
  const words = wordsOf(block).filter(({ letter }) => letter === 'M');
  const first = most === null ? undefined : words[most];
  if (!first || !context.isDialectCertain()) return;
  const { start, end } = first;
  yield {
    message: `This block has ${words.length} M words: RS274/NGC takes ${most}, and raises an error.`,
    place: { line, start, end },
  };
}

function report(
  block: Block,
  line: number,
  first: { word: Word; code: Code },
  second: { word: Word; code: Code },
): Report {
  const same = first.code.code === second.code.code;
  const ofOneGroup = first.code.group === second.code.group;
  return {
    message: same
      ? `${second.code.code} stands twice in this block: RS274/NGC raises an error.`
      : !ofOneGroup
        ? `${first.code.code} and ${second.code.code} both use the axis words of this block: RS274/NGC raises an error.`
        : `${first.code.code} and ${second.code.code} are both of the group "${first.code.group}": RS274/NGC raises an error, and other controls take one of them.`,
    place: { line, start: second.word.start, end: second.word.end },
    related: [
      {
        message: ofOneGroup ? 'the other code of the group' : 'the other code',
        place: { line, start: first.word.start, end: first.word.end },
      },
    ],
    fixes: same
      ? [
          {
            title: `Remove the second ${second.code.code}`,
            edits: [removed(block, line, second.word)],
            changesMotion: false,
          },
        ]
      : [],
  };
}
