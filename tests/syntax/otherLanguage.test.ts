import { describe, expect, it } from 'vitest';
import { otherLanguage } from '../../server/syntax/otherLanguage.ts';

const repeated = (line: string, count: number) => Array.from({ length: count }, () => line).join('\n');

describe('files in other languages', () => {
  it.each([
    ['if {move.axes[2].homed}\n  G31 P500\n', 'has expressions in braces (line 1)'],
    ['G1 X{1+2}\nG1 X{width}\n', 'has expressions in braces (line 2)'],
    ['echo "probing"\n', 'has quoted text behind a code (line 1)'],
    ['G21\nvar width = 10\n', 'declares variables by name (line 2)'],
    ['G21\nM291 P"Place the probe" S2\n', 'has quoted text behind a code (line 2)'],
    ['N10 MSG("probe")\nN20 CYCLE977(1,2)\n', 'has variables and jumps of another language (line 2)'],
    ['0 BEGIN PGM BORE MM\n1 TOOL CALL 5 Z\n', 'is in a conversational format (line 1)'],
    ['3 TOOL CALL 5 Z\n4 L X+10 R0 FMAX\n', 'is in a conversational format (line 2)'],
    ['DEF REAL WIDTH\nG1 X=WIDTH\n', 'has variables and jumps of another language (line 1)'],
    ['N10 R1=5\nN20 IF R1==5 GOTOF END\n', 'has variables and jumps of another language (line 2)'],
    [
      'M558 P9 H5\nG31 P500 X-16 Y-29 Z1.7\nM574 X1 S1\n',
      'has heating, extruder or set-up codes of a printer (line 3)',
    ],
    ['M104 S200\nG28\nG1 X1 E0.5\n', 'has heating, extruder or set-up codes of a printer (line 3)'],
    ['\x7fELF\x02\x01\0\0\0', 'is no text: it holds control characters'],
    [`PK\x03\x04${'\ufffd\x05a'.repeat(200)}`, 'is no text: it holds control characters'],
    [repeated('Dear all, the part is late again.', 30), 'is no program: most of its lines are no blocks'],
  ])('%j', (text, reason) => {
    expect(otherLanguage(text)).toBe(reason);
  });

  it.each([
    '',
    '\n\n',
    '%\nO0020(a)(b)\nIF[#1EQ#0]GOTO10\nN10M30\n%\n\x1a',
    'o100 if [#5070 EQ 0]\n(abort, {no} "contact")\no100 endif ; var x = {1}',
    'G1 X1 E0.5',
    'M104 P1 (own code)\nM109',
    'G0 "typo\nG1 X1',
    'M0 "turn the part"\nG1 X{1}',
    repeated('X', 19),
    `${repeated('X Y', 21)}\n${repeated('G1 X1', 10)}`,
    'r1=5 only once',
    repeated('#1=#2+#3 G1 X#1', 50),
    repeated('(a comment about R1= and GOTOF)', 50),
    'é(caf\xe9)\n',
  ])('%j may be one of ours', (text) => {
    expect(otherLanguage(text)).toBeNull();
  });
});
