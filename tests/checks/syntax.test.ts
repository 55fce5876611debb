import { describe, expect, it } from 'vitest';
import { checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

testRule(
  'syntax',
  [
    ['a bracket that nothing closes', 'rs274ngc', 'G21 G90 G94\nG0 X[1 + 2 ;! syntax\nM2\n'],
    [
      'a letter without its value, in a subroutine',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  G1 X Y5 F100 ;! syntax\no<a> endsub\no<a> call\nM2\n',
    ],
    ['two points in a number', 'rs274ngc', 'G21 G90 G94\nG1 X1.2.3 F100 ;! syntax\nM2\n'],
    [
      'a function that is none, in a loop',
      'rs274ngc',
      'G21 G90 G94\no1 repeat [3]\n  #1 = SINE[30] ;! syntax\no1 endrepeat\nM2\n',
    ],
    ['an operator without a value', 'rs274ngc', 'G21 G90 G94\n#1 = [#2 * ] ;! syntax\nM2\n'],
    ['a condition is missing', 'rs274ngc', 'G21 G90 G94\no1 if ;! syntax\no1 endif\nM2\n'],
    ['the rest of a sentence', 'rs274ngc', 'G21 G90 G94\nG0 Z5 retract first ;! syntax\nM2\n'],
    ['a parameter that is neither set nor read', 'rs274ngc', 'G21 G90 G94\n#100 ;! syntax\nM2\n'],
    ['a bracket that nothing closes', 'macro', 'G21 G90 G94\n#100=[#101*2 ;! syntax\nM30\n'],
    ['a jump to nowhere', 'macro', 'G21 G90 G94\nIF[#1EQ0]GOTO ;! syntax\nM30\n'],
    ['THEN with nothing behind it', 'macro', 'G21 G90 G94\nIF[#1EQ0]THEN ;! syntax\nM30\n'],
    ['a stray character', 'macro', 'G21 G90 G94\nG0 X5. & Y2. ;! syntax\nM30\n'],
  ],
  [
    ['no blanks, mixed case, odd numbers', 'rs274ngc', 'g21G90g94\ng1x5.y-.5z+25f100\nx-0\nm2\n'],
    ['blanks inside words', 'rs274ngc', 'G21 G90 G94\nG1 X 1 0 Z -4 F 100\nM2\n'],
    ['comments everywhere', 'rs274ngc', 'G21(mm)G90 G94()\n;\nG1(feed)X5(five)F100;end\nM2\n'],
    [
      'expressions and names',
      'rs274ngc',
      'G21 G90 G94\n#<Deep Hole> = [2 ** 3 + ATAN[1]/[2]]\n#1=#<deephole>\nG0 X[-#1]\nM2\n',
    ],
    ['O-words glued and in capitals', 'rs274ngc', 'G21 G90 G94\nO100IF[#1GT2]\nG0X5\nO100ENDIF\nM2\n'],
    [
      'text behind a call of a name',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  G0 X[#1 + #2]\no<a> endsub\no<a> call[1][2]\nM2\n',
    ],
    [
      'text before the first percent line',
      'macro',
      'PART 12\nREV B\n%\nO0012(A)(B)\nG21G90G94\nG0X5.\nM30\n%\nend of tape\n',
    ],
    ['labels alone and without digits', 'macro', 'G21 G90 G94\nN\nN0010\nGOTO10\nM30\n'],
    ['settings without brackets', 'macro', 'G21 G90 G94\n#1=#2+#3*2\n#4=-#5\nG0X-[#1/2.]\nM30\n'],
    [
      'flow without blanks',
      'macro',
      'G21G90G94\nIF[#1EQ#0]THEN#1=2\nWHILE[#1LT5AND#2GT1]DO1\n#1=#1+1\nEND1(turn)\nM30\n',
    ],
    ['block delete before anything', 'macro', 'G21 G90 G94\n/G0X5.\n/2N10G0Y5.\nN20/G0Z5.\nM30\n'],
    ['a Ctrl-Z at the end', 'rs274ngc', 'G21 G90 G94\nM2\n\u001a'],
  ],
);

describe('syntax', () => {
  it('says what is wrong, with the text it is about', () => {
    const message = (program: string, dialect: 'rs274ngc' | 'macro' = 'rs274ngc') =>
      checkText(program, { dialect }).findings[0]?.message;
    expect(message('G0 X1.2.3\n')).toContain('"1.2.3" is no number');
    expect(message('#1 = SINE[30]\n')).toContain('"SIN" needs its value in brackets');
    expect(message('#1 = [#2 * ]\n')).toContain('A value is missing here');
    expect(message('G0 Z5 retract first\n')).toContain('"retract');
    expect(message('G1 X Y5\n')).toContain('"X" has no value');
    expect(message('IF[#1EQ0]GOTO\n', 'macro')).toContain('GOTO needs');
    expect(message('IF[#1EQ0]\n', 'macro')).toContain('IF needs GOTO');
    expect(message('WHILE[#1EQ0]\n', 'macro')).toContain('WHILE needs DO');
    expect(message('IF[#1EQ[#2+[#3\n', 'macro')).toContain('This "[" has no "]"');
    expect(message('O1001\n')).toContain('"O1001" begins a program in the macro dialect');
    expect(message(`G0 X1 (${'a'.repeat(300)})\n`)).toContain('the dialect allows 256');
  });

  it('stands at the fault, also behind a BOM, tabs and characters outside the basic plane', () => {
    const [finding] = checkText('\uFEFFG21\r\n\tG0 (🔧) X[1\r\n', { dialect: 'rs274ngc' }).findings;
    expect(finding?.place.line).toBe(1);
    expect(finding?.place.start).toBe('\tG0 (🔧) X'.length);
  });
});

describe('N numbers too long for the report', () => {
  const numbered = (from: number) =>
    `G21 G90 G94\n${Array.from({ length: 30 }, (_, i) => `N${from + i} G1 X${i} F100`).join('\n')}\nM2\n`;
  it('are said once, with how many there are', () => {
    const { findings } = checkText(numbered(99_990), { dialect: 'rs274ngc' });
    expect(findings.map((f) => [f.place.line, f.rule, f.severity])).toEqual([[11, 'syntax', 'warning']]);
    expect(findings[0]?.message).toContain('19 more blocks');
  });
  it('are no fault to the macro family, nor up to five digits', () => {
    expect(checkText(numbered(99_990), { dialect: 'macro' }).findings).toEqual([]);
    expect(checkText(numbered(99_960), { dialect: 'rs274ngc' }).findings).toEqual([]);
  });
});
