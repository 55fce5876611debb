import { ChunkFacts } from '../syntax/chunkFacts.ts';
import type { Dialect } from '../syntax/dialect.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import type { Block, Fault } from '../syntax/tree.ts';
import type { Report, Rule } from './rule.ts';

export const syntax: Rule = {
  id: 'syntax',
  severity: 'error',
  title: 'text that is no block of the dialect',
  what: 'A part of the line is no word, number, expression, parameter setting, comment or flow statement of the dialect.',
  why: 'The control stops at this line with an alarm, perhaps in the middle of a probing routine, or reads something else than was meant.',
  instead: 'Write the block as the dialect has it; the message says what is missing or too much.',
  source: 'NISTIR 6556, 3.3 and appendix E; forms beyond it: common practice, no source',
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
  *checkBlock(block, line, { analysis }): Iterable<Report> {
    for (const fault of separate(block).filter((f) => !isLongLineNumber(f, block)))
      yield {
        message: wordFault(fault, block.text, analysis.source.dialect),
        place: { line, start: fault.start, end: fault.end },
      };
  },
};

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

function wordFault(fault: Fault, text: string, dialect: Dialect): string {
  const found = shown(text.slice(fault.start, fault.end));
  const detail = fault.detail ?? '';
  switch (fault.code) {
    case 'unexpected-character':
      return `${found} is nothing of the language here.`;
    case 'unclosed-comment':
      return 'This comment has no ")": the control reads the rest of the line as comment, or stops here.';
    case 'unclosed-bracket':
      return 'This "[" has no "]" on the line.';
    case 'unclosed-name':
      return 'This "<" has no ">" on the line.';
    case 'stray-bracket':
      return `${found} closes nothing.`;
    case 'missing-value':
      return detail ? `${shown(detail)} has no value.` : `${found} has no value.`;
    case 'bad-number':
      return `${found} is no number: it has a sign, digits and one point.`;
    case 'missing-operand':
      if (/^[A-Z]{2,}$/.test(detail) && dialect.functions.some((name) => name === detail))
        return `${shown(detail)} needs its value in brackets behind it.`;
      return detail ? `${shown(detail)} has no value beside it.` : 'A value is missing here.';
    case 'unknown-function':
      return `${detail ? shown(detail) : found} is no function of the language; it has ${dialect.functions.join(', ')}.`;
    case 'unknown-keyword':
      return `${detail ? shown(detail) : found} is no keyword of program flow.`;
    case 'program-number':
      return `${found} begins a program in the macro dialect; in this one an O-word needs a keyword such as sub, call or if.`;
    case 'missing-condition':
      return 'A condition in brackets should stand here.';
    case 'missing-target':
      return 'GOTO needs the number of the N block to jump to.';
    case 'missing-statement':
      return missingStatements[detail] ?? 'A statement is missing here.';
    case 'missing-label':
      return 'An O-word needs a number or a <name>.';
    case 'trailing-text':
      return `${found} stands behind the end of the statement and is not read, or stops the control.`;
    case 'nested-too-deep':
      return 'Brackets are nested too deep to be read.';
    case 'line-too-long':
      return `The line has ${text.length} characters; the dialect allows ${dialect.maximumLineLength ?? detail}.`;
    case 'bad-letter':
      return `${found} begins no word of this dialect.`;
    case 'bad-line-number':
      return 'N takes up to five digits, with no sign, point or expression.';
    case 'nested-comment':
      return 'A "(" inside a comment: the comment ends at the first ")", and RS274/NGC raises an error.';
    case 'missing-brackets':
      return `${found} must stand in brackets.`;
    case 'misplaced-line-number':
      return `${found} must stand at the start of the line.`;
    case 'missing-equals':
      return 'A parameter at this place is set, and needs "=" and a value.';
  }
}

/** What does not stand behind these keywords of the macro family. */
const missingStatements: Readonly<Record<string, string>> = {
  IF: 'IF needs GOTO and a block number, or THEN and a setting, behind its condition.',
  THEN: 'THEN needs a setting behind it, such as #1=2.',
  WHILE: 'WHILE needs DO and a number behind its condition.',
};

/** Enough of the text to find it by, with what can't be seen made visible. */
function shown(text: string): string {
  const visible = text.replace(/[\u0000-\u001f\u007f-\u009f\ufffd]/g, '·').trim();
  return `"${visible.length > 24 ? `${visible.slice(0, 24)}…` : visible}"`;
}
