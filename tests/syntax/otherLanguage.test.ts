import { describe, expect, it } from 'vitest';
import { otherLanguage } from '../../server/syntax/otherLanguage.ts';

const repeated = (line: string, count: number) => Array.from({ length: count }, () => line).join('\n');

describe('files in other languages', () => {
  it.each([
    ['if {move.axes[2].homed}\n  G31 P500\n', 'has expressions in braces (line 1)'],
    ['G1 X{1+2}\nG1 X{width}\n', 'has expressions in braces (line 2)'],
    ['G21\nM208 S1 Z{move.axes[2].max}\n', 'has expressions in braces (line 2)'],
    ['G30\nif sensors.probes[0].value[0] > 500\n  G1 Z5\n', 'has conditions of another language (line 2)'],
    ['while iterations < 3\n  G30\n', 'has conditions of another language (line 1)'],
    ['echo "probing"\n', 'has quoted text behind a code (line 1)'],
    ['G21\nvar width = 10\n', 'declares variables by name (line 2)'],
    ['G21\nM291 P"Place the probe" S2\n', 'has quoted text behind a code (line 2)'],
    ['N10 MSG("probe")\nN20 CYCLE977(1,2)\n', 'has variables and jumps of another language (line 2)'],
    ['0 BEGIN PGM BORE MM\n1 TOOL CALL 5 Z\n', 'is in a conversational format (line 1)'],
    ['3 TOOL CALL 5 Z\n4 L X+10 R0 FMAX\n', 'is in a conversational format (line 2)'],
    ['L X+10 Y+20 R0 FMAX\nL Z-5 F200\n', 'is in a conversational format (line 2)'],
    ['CC X+5 Y+2\nC X+1 Y+1 DR-\n', 'is in a conversational format (line 2)'],
    ['LBL 5\nTCH PROBE 0.0 REF. PLANE Q5 X-\n', 'is in a conversational format (line 2)'],
    ['%\nN10 G21 G90*\nN20 G0 X10 Y10*\n', 'ends its blocks with "*" (line 3)'],
    ['N10 G0 X=R1\nN20 G1 Y=IC(5)\n', 'has variables and jumps of another language (line 2)'],
    ['VC1=10\nCALL O9016 PX=10\n', 'has variables and jumps of another language (line 2)'],
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
    'G1 X=#1\nG1 Y=#2\nG1 Z=5',
    '#1=[2*\nG1 X1',
    '(***)\n(a *)\n; b *\n#1=[#2*3]\nDPRNT[X#1[53]*]\nDPRNT[Y#1[53]*]',
    'IF[#1EQ1]GOTO5\nWHILE[#1LT5]DO1\nif [#1 gt .5] goto 5',
    'G0 L2 X+5 C+3\nC-3 X+2',
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
