import { codeOf } from '../program/codes.ts';
import { dataKindOf, isDataKind } from '../program/dataKinds.ts';
import type { Source } from '../syntax/source.ts';
import { type CodeWord, codesIn } from './blockFacts.ts';
import type { CheckContext, Rule } from './rule.ts';

export const unknownCode: Rule = {
  id: 'unknown-code',
  severity: 'warning',
  title: 'a G or M code that the dialect does not have',
  what: 'No control of this dialect’s family has the code, or in rs274ngc the L number of G10, as far as its written sources and the trade’s habits go. Ranges that are left to users and machine builders are not reported, nor codes that a variable chooses.',
  why: 'The control stops with an alarm at this block, or a machine that has given the code a meaning of its own does something that this check knows nothing of.',
  instead:
    'Write the code of this dialect for what is meant; where the machine has it from its builder, allow it here with a comment that says so.',
  source: 'NISTIR 6556, 3.5 (G10: 3.5.5) and 3.6; codes beyond it: common practice, no source',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG38.6 Z-10 F40\nM2\n' },
    { dialect: 'rs274ngc', program: 'G21 G90 G94\no<x> sub\n  G31 Z-10 F40\no<x> endsub\no<x> call\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\nIF[#1EQ1]GOTO2\nG21.5\nN2 M30\n' },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94 G64 P0.01\nM150\nM66 P0 L3 Q5\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94 G187 P3\nM428\nG65 P9023 M92.5 T3\nM30\n' },
  ],
  *checkBlock(block, line, context) {
    for (const found of codesIn(block))
      if (isUnknown(found, context))
        yield {
          message: `${shown(found)} is no code of this dialect${inOther(found, context.analysis.source)}: the control raises an alarm, or the machine has a meaning of its own for it.`,
          place: { line, start: found.word.start, end: found.word.end },
        };
    const kind = dataKindOf(block);
    if (kind && !isDataKind(kind.value, context.analysis.source.dialect.name) && context.isDialectCertain())
      yield {
        message: `G10 L${kind.value} is nothing that this dialect sets: RS274/NGC has L2 alone, and raises an error.`,
        place: { line, start: kind.word.start, end: kind.word.end },
      };
  },
};

function shown({ letter, value }: CodeWord): string {
  return `${letter}${value}`;
}

/** A code of the other dialect says nothing where the dialect is no more than a guess. */
function isUnknown(found: CodeWord, context: CheckContext): boolean {
  const { source } = context.analysis;
  if (codeOf(found.letter, found.value, source.dialect.name) !== null) return false;
  return codeOf(found.letter, found.value, otherOf(source)) === null || context.isDialectCertain();
}

function inOther({ letter, value }: CodeWord, source: Source): string {
  const other = codeOf(letter, value, otherOf(source));
  const certain = other !== null && other.group !== '';
  return certain ? ` (in the ${otherOf(source)} dialect it is: ${other.title})` : '';
}

function otherOf(source: Source): 'rs274ngc' | 'macro' {
  return source.dialect.name === 'macro' ? 'rs274ngc' : 'macro';
}
