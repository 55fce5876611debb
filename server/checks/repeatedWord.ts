import { literal } from '../syntax/literal.ts';
import type { Block, Word } from '../syntax/tree.ts';
import { wordsOf } from './blockFacts.ts';
import { removed } from './lineEdits.ts';
import type { Report, Rule } from './rule.ts';

export const repeatedWord: Rule = {
  id: 'repeated-word',
  severity: 'error',
  title: 'a letter twice in a block',
  what: 'A letter other than G and M stands more than once in a block of rs274ngc. The macro family takes the last one, or has a use for several (I, J and K of a call).',
  why: 'RS274/NGC raises an error and stops at the block.',
  instead: 'Leave the word that is meant.',
  source: 'NISTIR 6556, 3.3.5',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG0 X5 Y2 X6\nM2\n' },
    { dialect: 'rs274ngc', program: 'G21 G90 G94\no1 if [#1 GT 0]\n  G1 X5 F100 F200\no1 endif\nM2\n' },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG0 G54 X5 Y2 M3 M8 S100 #1=2 #1=3\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\nG65 P9100 I1. J2. I3. J4.\nG0 X5. X6.\nM30\n' },
  ],
  *checkBlock(block, line, { analysis }): Iterable<Report> {
    if (analysis.source.dialect.repeatedWords) return;
    const first = new Map<string, Word>();
    const told = new Set<string>();
    for (const word of wordsOf(block)) {
      const before = first.get(word.letter);
      if (before === undefined) first.set(word.letter, word);
      if (before === undefined || word.letter === 'G' || word.letter === 'M' || told.has(word.letter))
        continue;
      told.add(word.letter);
      yield report(block, line, before, word);
    }
  },
};

function report(block: Block, line: number, first: Word, second: Word): Report {
  const { letter } = first;
  const later = wordsOf(block).filter((word) => word.letter === letter && word !== first);
  const value = literal(first.value);
  const same = value !== null && later.every((word) => literal(word.value) === value);
  return {
    message: `${letter} stands ${later.length === 1 ? 'twice' : `${later.length + 1} times`} in this block: RS274/NGC raises an error.`,
    place: { line, start: second.start, end: second.end },
    related: [{ message: `the first ${letter}`, place: { line, start: first.start, end: first.end } }],
    fixes: [
      {
        title: later.length === 1 ? `Remove the second ${letter}` : `Remove all but the first ${letter}`,
        edits: later.map((word) => removed(block, line, word)),
        changesMotion: !same,
      },
    ],
  };
}
