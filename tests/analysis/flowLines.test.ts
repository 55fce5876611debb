import fc from 'fast-check';
import { expect, test } from 'vitest';
import { flowLines } from '../../server/analysis/flowLines.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import type { Block } from '../../server/syntax/tree.ts';

const steering = {
  rs274ngc: [
    'o100 if [#1]',
    'O<a> call [1]',
    'o#1 call',
    'm2',
    'M 3 0',
    'm0030',
    'G65 P1',
    'g 65 p1',
    'M98P1',
    'm099',
    '(abort, no)',
  ],
  macro: [
    'IF[#1EQ2]GOTO5',
    'GOTO#5',
    'WHILE[#1LT3]DO1',
    'DO2',
    'END1(x)',
    'IF[#1]THEN#3000=1',
    '#3000=1(no)',
    '#[3000]=1',
    'O1000',
    'G65P9000X1.',
    'M98 P1 L2',
    'M99',
    'M30',
    'G0065P1',
  ],
} as const;
const plain = [
  'G1 X#1',
  '#1=#2+1',
  'G38.2 X5 F[#1]',
  '(of no use)',
  'T1',
  'G92 X0',
  '; end',
  'S100 F2',
  'G31 Z-5.',
];

function steers(block: Block): boolean {
  return block.items.some((i) => {
    if (i.kind === 'flow') return true;
    if (i.kind === 'comment') return /^\s*abort\s*,/i.test(i.text);
    if (i.kind === 'setting') return 'number' in i.target.index && i.target.index.number === 3000;
    if (i.kind !== 'word' || i.value.kind !== 'number') return false;
    return i.letter === 'O' || /^(G65|M2|M30|M98|M99)$/.test(`${i.letter}${i.value.value}`);
  });
}

test.each(['rs274ngc', 'macro'] as const)('no line of %s that steers is left out', (name) => {
  const blanks = fc.constantFrom('', ' ', '\t', '/', '/ N10 ', 'n5', 'N 007 ', '/2');
  const line = fc.tuple(
    blanks,
    fc.constantFrom<string>(...steering[name], ...plain),
    fc.constantFrom('', ' (text)', ' X1'),
  );
  fc.assert(
    fc.property(
      fc.array(
        line.map((parts) => parts.join('')),
        { minLength: 1, maxLength: 20 },
      ),
      (lines) => {
        const source = Source.from(SourceText.from(lines.join('\n')), dialects[name]);
        const all = lines.map((_, i) => i);
        const told = new Set(flowLines(source).map(({ line }) => line));
        for (const i of all)
          if (steers(source.block(i))) expect([lines[i], told.has(i)]).toEqual([lines[i], true]);
      },
    ),
    { numRuns: 500 },
  );
  const source = Source.from(SourceText.from(steering[name].join('\n')), dialects[name]);
  expect(flowLines(source)).toHaveLength(steering[name].length);
  const quiet = Source.from(SourceText.from('G1 X#1\n#1=[#2+1]\nG38.2 X5\nT1 S100'), dialects[name]);
  expect(flowLines(quiet)).toEqual([]);
});
