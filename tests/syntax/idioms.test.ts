import { describe, expect, it } from 'vitest';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { printBlock } from '../../server/syntax/printBlock.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { faults, outline } from './outline.ts';

/** What 527 programs by many hands write (our own count of them; common practice, no source), and what it is read as. */
type Line = readonly [line: string, expected: string];

const both: readonly Line[] = [
  ['G0X1Y2Z-3.5F100', 'G=0 X=1 Y=2 Z=-3.5 F=100'],
  ['G 1 Z -4 F 1 0 0', 'G=1 Z=-4 F=100'],
  ['g21 G90 x[#1+2]', 'G=21 G=90 X=(+ #1 2)'],
  ['X5. Y.5 Z+25 A-0', 'X=5 Y=0.5 Z=25 A=-0'],
  ['%', 'percent'],
  ['% any text (here', 'percent'],
  ['N0010 G1 X1', 'N10 G=1 X=1'],
  ['N10', 'N10'],
  ['/G0 X1', '/ G=0 X=1'],
  ['/N20 G0', '/ N20 G=0'],
  ['G90 G54 G0 G17 X0 M3 M8', 'G=90 G=54 G=0 G=17 X=0 M=3 M=8'],
  ['G0', 'G=0'],
  ['F200', 'F=200'],
  ['T5M6', 'T=5 M=6'],
  ['M06T05', 'M=6 T=5'],
  ['U1 V-2 W.5', 'U=1 V=-2 W=0.5'],
  ['#01=1', '#1:=1'],
  ['X##10', 'X=#[#10]'],
  ['X#[#30]', 'X=#[#30]'],
  ['#901050=1', '#901050:=1'],
  ['X-#5', 'X=(- #5)'],
  ['X-[#5+1]', 'X=(- (+ #5 1))'],
  ['X[#1AND#2]Y[#3OR4]Z[7MOD#6]', 'X=(AND #1 #2) Y=(OR #3 4) Z=(MOD 7 #6)'],
  ['X1(comment)Y2', 'X=1 "comment" Y=2'],
  ['()G1', '"" G=1'],
  ['G1 ;', 'G=1 ;""'],
  [';', ';""'],
  ['', ''],
  ['M2\x1a', 'M=2'],
  ['\ufeffG21', 'G=21'],
];

const rs274ngc: readonly Line[] = [
  ['o100 if[#1 EQ 0]', 'o:100 if (EQ #1 0)'],
  ['o100if[#1eq0]', 'o:100 if (EQ #1 0)'],
  ['O100 SUB', 'o:100 sub'],
  ['o<a> call[1][2]', 'o:a call 1 2'],
  ['O<Find Edge.x> Call [#<_Clear Z>]', 'o:findedge.x call #<_clearz>'],
  ['#<A b.c>=[#<_x>]', '#<ab.c>:=#<_x>'],
  ['o1 IF [#5070 eq 0] (c)', 'o:1 if (EQ #5070 0) "c"'],
  ['G1@10^45', 'G=1 @=10 ^=45'],
  ['G0 @ [#1] ^-#2', 'G=0 @=#1 ^=(- #2)'],
  ['(MSG,a (b)', '"MSG,a (b"'],
];

const macro: readonly Line[] = [
  ['O0020(a)(b)', 'O=20 "a" "b"'],
  [':0020(a)', 'O=20 "a"'],
  ['N G1 X1', 'N G=1 X=1'],
  ['N10/G0 X1', '/ N10 G=0 X=1'],
  ['G0 /X1', '/ G=0 X=1'],
  ['IF[#1EQ#0]GOTO1', 'if (EQ #1 #0) goto 1'],
  ['IF[#1EQ1]THEN#1=2', 'if (EQ #1 1) then #1:=2'],
  ['if[#1eq1]then #1=2', 'if (EQ #1 1) then #1:=2'],
  ['GOTO#5', 'goto #5'],
  ['goto [#5+10]', 'goto (+ #5 10)'],
  ['END1(text)', 'end 1 "text"'],
  ['While [#1 lt 3] Do 2', 'while (LT #1 3) do 2'],
  ['#3000=121(text)', '#3000:=121 "text"'],
  ['#100=#101+#102*2', '#100:=(+ #101 (* #102 2))'],
  ['#1=-#2', '#1:=(- #2)'],
  ['G65P9001X-5.', 'G=65 P=9001 X=-5'],
  ['(a (b)', '"a (b"'],
];

const cases = (name: DialectName, lines: readonly Line[]) => lines.map((line) => [name, ...line] as const);

describe('the syntax that people write', () => {
  it.each([
    ...cases('rs274ngc', [...both, ...rs274ngc.slice(0, -1)]),
    ...cases('macro', [...both, ...macro]),
  ])('%s: %s', (dialect, line, expected) => {
    expect(outline(line, dialect)).toBe(expected);
    expect(faults(line, dialect)).toBe('');
    expect(printBlock(parseBlock(line, dialects[dialect]))).toBe(line);
  });

  it('ends a comment at its first ")", which one dialect alone calls a fault when a "(" stands inside', () => {
    expect(outline('(MSG,a (b)', 'rs274ngc')).toBe('"MSG,a (b"');
    expect(faults('(MSG,a (b)', 'rs274ngc')).toBe('nested-comment@7-10');
  });

  it.each(['\n', '\r\n', '\r'])('takes lines that end in %j, a last one without an ending too', (ending) => {
    const lines = ['text before', '%', 'G21', 'M30'];
    const source = Source.from(SourceText.from(lines.join(ending)), dialects.macro);
    expect(lines.map((_, i) => source.text.line(i))).toEqual(lines);
    expect(source.block(3).faults).toEqual([]);
    expect(source.text.toString()).toBe(lines.join(ending));
  });

  it('takes line endings of several kinds, letters outside ASCII and a Ctrl-Z at the end', () => {
    const text = '\ufeff%\r\nG21 (\u00e9)\nG90\rM30\r\n%\n\x1a';
    const source = Source.from(SourceText.from(text), dialects.macro);
    for (let line = 0; line < source.lineCount; line++) expect(source.block(line).faults).toEqual([]);
    expect(source.text.toString()).toBe(text);
  });
});
