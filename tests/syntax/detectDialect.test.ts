import { describe, expect, it } from 'vitest';
import { detectDialect } from '../../server/syntax/detectDialect.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

describe('the dialect of a file', () => {
  it.each([
    ['o100 sub\no100 endsub\nM2', 'rs274ngc', 'O-word flow on line 1'],
    ['G21\nN10 o<probe_x> call [1]\nM2', 'rs274ngc', 'O-word flow on line 2'],
    ['g 1 x#<_edge>', 'rs274ngc', 'a named parameter on line 1'],
    ['G21\nG38.2 Z-10 F50', 'rs274ngc', 'a G38 touch on line 2'],
    ['(print,found #5061)\n#1=[#2+1]', 'rs274ngc', 'a comment that prints on line 1'],
    ['%\nO0020 (bore)\nG0 X1', 'macro', 'a program number on line 2'],
    ['%\n:0020 (bore)\nG0 X1', 'macro', 'a program number on line 2'],
    ['IF [#1 EQ #0] GOTO 10', 'macro', 'IF … GOTO on line 1'],
    ['if[#1lt0]then#1=0', 'macro', 'IF … THEN on line 1'],
    ['WHILE[#1LT5]DO1\nEND1', 'macro', 'WHILE … DO on line 1'],
    ['G90\nG31 Z-10 F50\n#100=#5063', 'macro', 'a skip move G31 on line 2'],
    ['G65 P9810 Z1', 'macro', 'a macro call G65 on line 1'],
    ['#3000=1(NO CONTACT)', 'macro', 'an alarm #3000 on line 1'],
    ['POPEN\nDPRNT[X#100[53]]\nPCLOS', 'macro', 'an output command on line 1'],
    ['#1=#2+#3', 'macro', 'an assignment without brackets on line 1'],
    ['G38.2 Z-1\nIF[#5070EQ0]GOTO9', 'macro', 'IF … GOTO on line 2'],
    ['(G65 P1)\n(IF[1]GOTO2)\n; G31\nG1 X1', 'rs274ngc', 'nothing in the file is particular to a dialect'],
    ['', 'rs274ngc', 'nothing in the file is particular to a dialect'],
    ['o100 while [#1 lt 5]\no100 endwhile', 'rs274ngc', 'O-word flow on line 1'],
  ])('%j is %s', (text, dialect, reason) => {
    expect(detectDialect(text)).toEqual({ dialect, reason, commentOverride: false });
    expect(detectDialect(SourceText.from(text))).toEqual({ dialect, reason, commentOverride: false });
  });

  it.each([
    '(probewright: dialect macro)',
    '; Probewright: DIALECT macro',
    'G21 (ours)(probewright:dialect macro )',
  ])('is what the comment %s says', (comment) => {
    expect(detectDialect(`o1 sub\r\n${comment}\r\no1 endsub`)).toEqual({
      dialect: 'macro',
      reason: 'named by a comment on line 2',
      commentOverride: true,
    });
  });

  it('leaves alone a comment that names none', () => {
    expect(detectDialect('(probewright: dialect other)\nG31 Z-1').commentOverride).toBe(false);
  });

  it('is found at once in a very long file', () => {
    const text = SourceText.from(`G31 Z-1\n${'G1 X1 Y1\n'.repeat(500_000)}`);
    expect(detectDialect(text).dialect).toBe('macro');
  });
});
