import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { datumError, touchError } from '../../server/analysis/error.ts';
import { check } from '../../server/checks/check.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

const lines: Record<DialectName, readonly string[]> = {
  rs274ngc: [
    'G21 G90 G94',
    'G20',
    'G91',
    'G90',
    'G93',
    'G38.2 X10 F40',
    'G38.3 Z-5',
    'G38.4 Z2',
    'G38.5 X1',
    'X5',
    'G0 X-2',
    'G0 Z5',
    'G1 Y3 F100',
    'G2 X1 Y1 I1 J0',
    'G53 G0 Z0',
    'G28 X0',
    'G92 X0',
    'G92.1',
    'G10 L2 P1 X#5061',
    'G10 L20 P0 Z[#5063+1]',
    'G10 L20 P#3 X1',
    'G55',
    'G43 H1',
    'M6 T2',
    'M3 S100',
    'M5',
    'M70',
    'M72',
    '#1=#5061',
    '#2=[#1/#2]',
    '#[#1]=3',
    '##2=1',
    '#<a>=[#5063+2]',
    '#5221=#5061',
    'X[sqrt[#2-5]]',
    '(log, #1 #<a>)',
    '(abort, no)',
    'o1 if [#5070 EQ 0]',
    'o1 elseif [#1]',
    'o1 else',
    'o1 endif',
    'o2 while [#1 LT 3]',
    'o2 endwhile',
    'o2 break',
    'o3 do',
    'o3 while [#5070]',
    'o4 repeat [3]',
    'o4 endrepeat',
    'o5 sub',
    'o5 return [#5061]',
    'o5 endsub',
    'o5 call [1] [#2]',
    'o[#1] call',
    'o6 sub',
    'o6 endsub',
    'o6 call',
    '/M2',
    'M2',
    'M30',
    '%',
    'G38.2',
    'G38.2 A5',
    'X1 X2',
    'o',
    '[',
    'G#1 X2',
    'N5 G0 X1',
    '',
  ],
  macro: [
    'G21 G90 G94',
    'G91',
    'G31 X10. F40.',
    'G31 Z#1',
    'G0 X-2.',
    'G0 Z5.',
    'O1000',
    'O2000',
    '#1=#5061',
    '#2=#1+#3/#4',
    '#100=ABS[#5063-#1]',
    '#5221=#5221+#5061',
    '#[5201+20*#7]=#5021',
    'IF[#1GT0.01]GOTO10',
    'IF[#2EQ#0]THEN#1=2',
    'IF[#1]THEN#3000=1',
    'N10 G0 X1.',
    'N20',
    'GOTO10',
    'GOTO#5',
    'GOTO20',
    'WHILE[#1LT3]DO1',
    'END1',
    'DO2',
    'END2',
    'G65 P2000 X1. F2.',
    'M98 P1000',
    'M99',
    'M30',
    '#3000=1(no)',
    '#3006=1',
    '#9=#4003',
    'G#9',
    'G10 L2 P1 X#1',
    'G52 X1.',
    'G28 G91 Z0',
    '/M99',
    '',
    'G31',
    'G53 Z0',
    'M6 T1',
    'G43 H#3',
  ],
};

/** Programs of lines that make sense, in an order that need not. */
function programs(dialect: DialectName): fc.Arbitrary<string> {
  return fc.array(fc.constantFrom(...lines[dialect]), { maxLength: 40 }).map((chosen) => chosen.join('\n'));
}

describe.each(['rs274ngc', 'macro'] as const)('any program of %s', (name) => {
  test('is analysed and checked without a throw, with places inside the text', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(programs(name), (program) => {
        const source = Source.from(SourceText.from(program), dialects[name]);
        const analysis = analyse(source, builtInProfile);
        for (const touch of analysis.touches) touchError(touch, analysis, builtInProfile);
        for (const datum of analysis.datums) {
          const error = datumError(datum, builtInProfile);
          if (error && error.bias !== null) expect(Number.isFinite(error.bias)).toBe(true);
        }
        for (let line = 0; line < source.lineCount; line += 3) analysis.stateAt(line);
        for (const { place, fixes } of check(source, analysis, builtInProfile).findings) {
          expect(place.line).toBeLessThan(source.lineCount);
          expect(place.end).toBeLessThanOrEqual(source.text.line(place.line).length);
          for (const edit of fixes.flatMap((f) => f.edits))
            expect(edit.line).toBeLessThanOrEqual(source.lineCount);
        }
      }),
      { numRuns: 400 },
    );
  });
});
