import { describe, expect, it } from 'vitest';
import { faults, outline } from './outline.ts';

describe('words of both dialects', () => {
  it.each([
    ['G0X1Y2', 'G=0 X=1 Y=2'],
    ['g1 x 5 y-3', 'G=1 X=5 Y=-3'],
    ['X5. Y.5 Z+25 A-.5 B-0 C007.50', 'X=5 Y=0.5 Z=25 A=-0.5 B=-0 C=7.5'],
    ['Z -4', 'Z=-4'],
    ['Z - 4', 'Z=-4'],
    ['G 38 . 2 Z -10', 'G=38.2 Z=-10'],
    ['\tG1\tX1\t', 'G=1 X=1'],
    ['G90G21G17G40G49G80', 'G=90 G=21 G=17 G=40 G=49 G=80'],
    ['M3 M8', 'M=3 M=8'],
    ['T1M6', 'T=1 M=6'],
    ['M6T#1', 'M=6 T=#1'],
    ['G#120 X1', 'G=#120 X=1'],
    ['G[#1+1]', 'G=(+ #1 1)'],
    ['U1 V2 W3 E4', 'U=1 V=2 W=3 E=4'],
    ['F#29', 'F=#29'],
    ['F[#653/2]', 'F=(/ #653 2)'],
    ['X-[#1+2]', 'X=(- (+ #1 2))'],
    ['X-#5', 'X=(- #5)'],
    ['X+#5', 'X=(+ #5)'],
    ['X-SIN[30]', 'X=(- (SIN 30))'],
    ['XSIN[30]', 'X=(SIN 30)'],
    ['ACOS[0]', 'A=(COS 0)'],
    ['X##2', 'X=#[#2]'],
    ['X#[#30]', 'X=#[#30]'],
    ['X#01', 'X=#1'],
    ['X#901050', 'X=#901050'],
    ['X1(glued)Y2(too)', 'X=1 "glued" Y=2 "too"'],
    ['D1H2L3P4Q5R6S7J8K9I10', 'D=1 H=2 L=3 P=4 Q=5 R=6 S=7 J=8 K=9 I=10'],
  ])('%s', (line, expected) => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      expect(outline(line, dialect)).toBe(expected);
      expect(faults(line, dialect)).toBe('');
    }
  });

  it.each([
    ['rs274ngc', '@', '@=?', 'missing-value@0-1'],
    ['rs274ngc', '@a>]', '@=? A=? stray', 'missing-value@0-1 unexpected-character@2-4'],
    ['rs274ngc', '^ab', '^=? stray', 'missing-value@0-1 unknown-keyword@1-3'],
    ['rs274ngc', 'X@5', 'X=? @=5', 'missing-value@0-1'],
    ['rs274ngc', ':5', 'stray', 'unexpected-character@0-2'],
    ['macro', ':abc', 'O=? stray', 'missing-value@0-1 unknown-keyword@1-4'],
    ['macro', '@5', 'stray', 'unexpected-character@0-2'],
  ] as const)('%s: %s, a sign in place of a letter, has faults', (dialect, line, expected, found) => {
    expect(outline(line, dialect)).toBe(expected);
    expect(faults(line, dialect)).toBe(found);
  });

  it('ignores blanks inside numbers (NISTIR 6556, 3.3: its own example)', () => {
    expect(outline('g0x +0. 12 34y 7', 'rs274ngc')).toBe('G=0 X=0.1234 Y=7');
  });

  it.each([
    ['X', 'X=?', 'missing-value@0-1'],
    ['X Y5', 'X=? Y=5', 'missing-value@0-1'],
    ['XY5', 'X=? Y=5', 'missing-value@0-1'],
    ['X = 5 Y1', 'X=5 Y=1', 'unexpected-character@2-3'],
    ['PROBE X5', 'stray X=5', 'unknown-keyword@0-5'],
    ['X$5', 'X=? stray', 'unexpected-character@1-3'],
    ['X] Y1', 'X=? stray Y=1', 'stray-bracket@1-2'],
    [
      'is this, by chance, a program?',
      'stray stray stray stray stray stray A=? stray stray',
      'unknown-keyword@0-2',
    ],
    ['X Y', 'X=? Y=?', 'missing-value@0-1 missing-value@2-3'],
    ['X1.2.3', 'X=?', 'bad-number@1-6'],
    ['X.', 'X=?', 'bad-number@1-2'],
    ['X-', 'X=?', 'bad-number@1-2'],
    ['X--3', 'X=?', 'bad-number@1-4'],
    ['X1-2', 'X=(- 1 2)', 'missing-brackets@1-4'],
    ['X#1*2 Y3', 'X=(* #1 2) Y=3', 'missing-brackets@1-5'],
    ['X1 $ Y2', 'X=1 stray Y=2', 'unexpected-character@3-4'],
    ['X1 ]', 'X=1 stray', 'stray-bracket@3-4'],
    ['[1+2]', 'stray', 'stray-bracket@0-5'],
    ['5 X1', 'stray X=1', 'unexpected-character@0-1'],
    ['X5 %', 'X=5 stray', 'unexpected-character@3-4'],
    ['X1 𝛑 Y2', 'X=1 stray Y=2', 'unexpected-character@3-5'],
  ])('%s has faults', (line, expected, found) => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      expect(faults(line, dialect)).toBe(found);
      expect(outline(line, dialect)).toBe(expected);
    }
  });
});

describe('what one dialect alone has', () => {
  it('takes corner words with a comma in the macro dialect (common practice)', () => {
    expect(outline('G1 X10 ,R2 , C-1', 'macro')).toBe('G=1 X=10 ,R=2 ,C=-1');
    expect(faults('G1 X10 ,R2', 'macro')).toBe('');
    expect(faults('G1 X10 ,R2', 'rs274ngc')).toBe('unexpected-character@7-8');
  });

  it('takes O as a program number in the macro dialect', () => {
    expect(outline('O0020(a)(b)', 'macro')).toBe('O=20 "a" "b"');
    expect(faults('O0020(a)(b)', 'macro')).toBe('');
    expect(faults('O0020(a)', 'rs274ngc')).toBe('program-number@0-5');
  });

  it('leaves I FIX[…] a word where IF would be a keyword', () => {
    expect(outline('G2 IFIX[2.8] JFUP[1]', 'macro')).toBe('G=2 I=(FIX 2.8) J=(FUP 1)');
  });

  it('wants the N number first in rs274ngc (NISTIR 6556, 3.3.1)', () => {
    expect(faults('G1 N10', 'rs274ngc')).toBe('misplaced-line-number@3-6');
    expect(outline('G10 L50 N1 R2', 'macro')).toBe('G=10 L=50 N=1 R=2');
    expect(faults('G10 L50 N1 R2', 'macro')).toBe('');
  });
});
