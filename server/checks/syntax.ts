import { constantFaults } from '../program/constantFaults.ts';
import { exponents } from '../program/exponents.ts';
import { badValues } from '../program/wordValues.ts';
import { ChunkFacts } from '../syntax/chunkFacts.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, Fault, Span } from '../syntax/tree.ts';
import { constantWords, wordFault } from './faultWords.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const syntax: Rule = {
  id: 'syntax',
  severity: 'error',
  title: 'text that is no block of the dialect',
  what: 'A part of the line is no word, number, expression, parameter setting, comment or flow statement of the dialect, or a number stands where the dialect does not take it: a negative feed, half a tool, a division by 0.',
  why: 'The control stops at this line with an alarm, perhaps in the middle of a probing routine, or reads something else than was meant.',
  instead: 'Write the block as the dialect has it; the message says what is missing or too much.',
  source:
    'NISTIR 6556, 3.3 and appendix E; numbers of words: 3.5.3 to 3.5.16, 3.7; forms beyond it: common practice, no source',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG0 X[1 + 2\nM2\n' },
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG1 X Y5 F100\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\n#100=[#101*2\nM30\n' },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'g21g90g94\n/n20 x [1 + 2] y-.5 (a comment) f 100\nm2\n' },
    {
      dialect: 'macro',
      program: '%\nO0020(PART)\nG21G90G94\n#100=#101*2\nIF[#100GT4]THEN#100=4\nG0X#100Y-[#100/2.]\nM30\n%\n',
    },
  ],
  *check({ analysis: { source } }) {
    yield* longNumbers.lookThrough(source);
    const long = longLineNumbers(source);
    if (!long.first) return;
    const more = long.count === 1 ? '' : `, as do ${long.count - 1} more blocks`;
    yield {
      message: `This N number has more than ${source.dialect.lineNumberDigits} digits${more}: RS274/NGC raises an error; other controls take no notice.`,
      place: long.first,
      severity: 'warning',
    };
  },
  *checkBlock(block, line, context): Iterable<Report> {
    const { analysis } = context;
    for (const fault of separate(block).filter((f) => !isLongLineNumber(f, block)))
      yield {
        message: wordFault(fault, block.text, analysis.source.dialect),
        place: { line, start: fault.start, end: fault.end },
        ...(fault.code === 'loop-number' && { severity: 'warning' }),
      };
    if (block.faults.length === 0) yield* numbersIn(block, line, context);
  },
};

/** Numbers that the dialect does not take; where it is a guess, what the other one takes is no fault. */
function* numbersIn(block: Block, line: number, context: CheckContext): Iterable<Report> {
  const { name } = context.analysis.source.dialect;
  const other: DialectName = name === 'macro' ? 'rs274ngc' : 'macro';
  for (const { word, code, said } of badValues(block, name)) {
    const there = () => badValues(block, other).some((bad) => bad.word === word);
    if (context.isDialectCertain() || there())
      yield {
        message: `${word.letter}${code === null ? '' : ` of ${code.replace('-', ' ')}`} takes ${said}: the control stops with an alarm at ${shown(block, word)}.`,
        place: { line, start: word.start, end: word.end },
      };
  }
  for (const word of exponents(block, name))
    if (context.isDialectCertain())
      yield {
        message: `${shown(block, word)} is no exponent: RS-274 has none, and reads it as a word of its own, which no code of this block takes.`,
        place: { line, start: word.start, end: word.end },
      };
  for (const { start, end, fault } of constantFaults(block, name))
    yield {
      message: `${shown(block, { start, end })} ${constantWords[fault]}: the control stops with an alarm, or takes something else.`,
      place: { line, start, end },
    };
}

function shown({ text }: Block, { start, end }: Span): string {
  return `"${text.slice(start, Math.min(end, start + 24))}${end > start + 24 ? '…' : ''}"`;
}

/** Long programs number every block: what is wrong with the numbers is said once. */
function longLineNumbers(source: Source): { readonly first: Place | null; readonly count: number } {
  if (source.dialect.lineNumberDigits === null) return { first: null, count: 0 };
  const plain = source.longNumberLines();
  let { count } = plain;
  let first = plain.first === null ? null : longLineNumber(source, plain.first);
  for (const { firstLine, fact } of longNumbers.in(source))
    for (const line of fact.map((local) => firstLine + local)) {
      const place = source.classOf(line) === 2 ? longLineNumber(source, line) : null;
      if (!place) continue;
      count++;
      if (!first || line < first.line) first = place;
    }
  return { first, count };
}

/** Blocks that are not plain and may have one. */
const longNumbers = new ChunkFacts<readonly number[]>((chunk, lines) => {
  const found = lines.filter((line) => /^[^(;A-Za-z]*n[\s\d]{6}/i.test(chunk.line(line)));
  return found.length > 0 ? found : null;
});

function longLineNumber(source: Source, line: number): Place | null {
  const block = source.block(line);
  const fault = block.faults.find((f) => isLongLineNumber(f, block));
  return fault ? { line, start: fault.start, end: fault.end } : null;
}

function isLongLineNumber({ code, start, end }: Fault, { text }: Block): boolean {
  return (
    code === 'bad-line-number' &&
    /^n[\s\d]+$/i.test(text.slice(start, end)) &&
    /\d/.test(text.slice(start, end))
  );
}

/** What stands inside a fault is its consequence, and words of prose one after the other are one fault. */
function separate({ faults, text }: Block): Fault[] {
  const told: Fault[] = [];
  const open = faults.some(({ code }) => code === 'unclosed-bracket');
  // An open bracket takes in whatever should stand behind the condition.
  const causes = open ? faults.filter(({ code }) => code !== 'missing-statement') : [...faults];
  for (const fault of causes.sort((a, b) => a.start - b.start || b.end - a.end)) {
    const last = told.at(-1);
    if (last && fault.start < last.end) continue;
    const goesOn = last?.code === fault.code && text.slice(last.end, fault.start).trim() === '';
    if (last && goesOn) told[told.length - 1] = { code: last.code, start: last.start, end: fault.end };
    else told.push(fault);
  }
  return told;
}
