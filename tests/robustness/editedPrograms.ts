import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import type { DialectName } from '../../server/syntax/dialect.ts';
import type { Change } from '../../server/workspace/openDocument.ts';
import { readMarks } from '../checks/marked.ts';

const root = path.join(import.meta.dirname, '../..');
const folders = [
  'client/walkthrough/demo',
  ...['habits', 'faults', 'milling'].map((each) => `tests/programs/${each}`),
];

/** Every sample of the repository: name and text without marks. */
export const samples: readonly { readonly name: string; readonly text: string }[] = folders.flatMap(
  (folder) =>
    readdirSync(path.join(root, folder))
      .filter((name) => /\.(ngc|nc)$/.test(name))
      .map((name) => ({ name, text: readMarks(readFileSync(path.join(root, folder, name), 'utf8')).text })),
);

/** The sample with plain blocks put in at some of its lines, so that it fills several chunks. */
export function padded(text: string, at: readonly number[], incremental: boolean): string {
  const all = text.split('\n');
  for (const [i, fraction] of at.entries()) {
    const block = (k: number) =>
      k % 40 === 7 ? `G1 X${k % 9}. F${200 + i}.` : `X${((k * 7) % 50) / 4} Y${incremental ? 0.25 : k / 8}`;
    const blocks = Array.from({ length: 150 + 70 * i }, (_, k) => block(k));
    all.splice(Math.floor(fraction * all.length), 0, 'G0 Z20.', ...blocks);
  }
  return all.join('\n');
}

/** Lines that change what others mean: modes, touches, flow, calls, percent signs, comments for us. */
const lines: Readonly<Record<DialectName, readonly string[]>> = {
  rs274ngc: [
    'G20',
    'G91',
    'G90 G94 G21',
    'G93',
    'F30',
    'G0 X1 Y2',
    'X5',
    'G1 Z-1 F200',
    'G38.2 Z-10 F50',
    'G38.3 X20',
    '#<a>=[#5063+1]',
    '#100=#5061',
    'G10 L2 P1 X[#100+3]',
    'G92 Z#5063',
    'M3 S500',
    'M5',
    'o7 if [#5070 EQ 0]',
    'o7 else',
    'o7 endif',
    'o8 while [#1 LT 3]',
    'o8 endwhile',
    'o9 sub',
    'o9 endsub [#5061]',
    'o9 call [2]',
    '(abort, no)',
    '(probewright: allow modal-conflict - on purpose)',
    'G1 G2 X1',
    'G31 Z1',
    'M2',
    '%',
    '[',
    '',
  ],
  macro: [
    'G20',
    'G91',
    'G90 G94 G21',
    'F30.',
    'G0 X1. Y2.',
    'X5.',
    'G31 Z-10. F50.',
    '#100=#5061',
    '#101=ABS[#100-#5063]',
    'G10 L2 P1 X[#100+3.]',
    'M3 S500',
    'IF[#100GT2]GOTO10',
    'IF[#101EQ#0]THEN#100=1',
    'N10 G0 Z5.',
    'GOTO10',
    'WHILE[#1LT3]DO1',
    'END1',
    'O2000',
    'G65 P2000 X1.',
    'M98 P2000',
    'M99',
    '#3000=1(no)',
    '(probewright: allow modal-conflict - on purpose)',
    'G38.2 Z1.',
    'M30',
    '%',
    '',
  ],
};

/** One edit: places are fractions of whatever the text is then. */
export interface Step {
  readonly from: number;
  readonly removed: 'nothing' | 'characters' | 'lines';
  readonly span: number;
  readonly at: number;
  readonly text: string;
}

/** Characters, lines, blocks pasted, stretches deleted. */
export function steps(dialect: DialectName): fc.Arbitrary<Step> {
  const line = fc.constantFrom(...lines[dialect]);
  const pasted = fc.array(line, { minLength: 1, maxLength: 12 }).map((some) => `${some.join('\n')}\n`);
  return fc.record({
    from: fc.double({ min: 0, max: 1, noNaN: true }),
    removed: fc.constantFrom('nothing', 'nothing', 'characters', 'lines'),
    span: fc.nat(6),
    at: fc.nat(12),
    text: fc.oneof(fc.constantFrom('', ' ', '1', '.', '-', '\n', '\r\n', '(', 'G', 'X2'), line, pasted),
  });
}

/** The step as a change of a text whose lines are known. */
export function changeOf({ from, removed, span, at, text }: Step, lineCount: number): Change {
  const line = Math.min(lineCount - 1, Math.floor(from * lineCount));
  const wholeLines = removed === 'lines' || text.endsWith('\n');
  const start = { line, character: wholeLines ? 0 : at };
  const end = {
    line: removed === 'lines' ? line + span : line,
    character: removed === 'characters' ? start.character + span : start.character,
  };
  return { range: { start, end }, text };
}
