import { describe, expect, it } from 'vitest';
import { checkText, told } from './marked.ts';
import { testRule } from './rulePrograms.ts';

testRule(
  'unknown-code',
  [
    ['a G number that nobody has', 'rs274ngc', 'G21 G90 G94\nG38.6 Z-10 F40 ;! unknown-code\nM2\n'],
    [
      'an M number outside the user’s range',
      'rs274ngc',
      'G21 G90 G94\n#<_x1> = 1\nM250 ;! unknown-code\nM2\n',
    ],
    [
      'the other dialect’s touch, in a subroutine',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  G31 Z-10 F40 ;! unknown-code\no<a> endsub\no<a> call\nM2\n',
    ],
    [
      'in a branch that may never run',
      'rs274ngc',
      'G21 G90 G94\no1 if [#1 GT 0]\n  G99.5 ;! unknown-code\no1 endif\nM2\n',
    ],
    ['a negative number', 'rs274ngc', 'G21 G90 G94\nG-1 X5 ;! unknown-code\nM2\n'],
    ['finer than tenths', 'rs274ngc', 'G21 G90 G94\nG38.25 Z-5 ;! unknown-code\nM2\n'],
    ['two in a block', 'rs274ngc', 'G21 G90 G94\n#<_x1> = 1\nG59.9 M250 ;! unknown-code unknown-code\nM2\n'],
    ['a tenth that nobody has', 'macro', 'G21 G90 G94\nG90.7 ;! unknown-code\nM30\n'],
    [
      'the other dialect’s touch',
      'macro',
      'G21 G90 G94\nIF[#1EQ1]GOTO5\nG38.2 Z-10. F40. ;! unknown-code\nG0 Z5.\nN5 M30\n',
    ],
    ['a typing error', 'macro', 'G21 G90 G94\nG540 G0 X5. ;! unknown-code\nM30\n'],
  ],
  [
    [
      'table 4 of the standard',
      'rs274ngc',
      'G0 G17 G21 G40 G49 G54 G61 G90 G94 G98\nG4 P1\nG59.3\nG92 X0\nG92.1\nG61.1\nM48\nM60\nM2\n',
    ],
    [
      'what the trade adds',
      'rs274ngc',
      'G21 G90 G94 G64 P0.01 G91.1 G97\nG43.1 Z5\nG33.1 Z-5 K1\nM19 R90\nM62 P1\nM66 P0 L0\nM70\nM72\nM2\n',
    ],
    ['user codes', 'rs274ngc', 'G21 G90 G94\nM100\nM199 P1 Q2\nM2\n'],
    ['leading zeros', 'rs274ngc', 'G21 G90 G94\nG00 X5\nG01 Y5 F100\nM05\nM02\n'],
    [
      'chosen by a variable',
      'rs274ngc',
      'G21 G90 G94\nG#1 X5\nG[38 + 0.2] Z-10 F40\nG0 Z5\nM[100 + #2]\nM2\n',
    ],
    [
      'a neutral program whose dialect is a guess',
      'rs274ngc',
      'G21 G90 G94\nG68 X0 Y0 R30\nG0 X5\nG69\nG5.1 Q1\nM30\n',
    ],
    ['machine builders’ codes', 'macro', 'G21 G90 G94\nG187 P3\nG154 P2\nM428\nM88\nM30\n'],
    [
      'letters behind a call are arguments',
      'macro',
      'G21 G90 G94\nG65 P9023 M92.5 T3\nG66 P9100 M1000.\nX5.\nG67\nM30\n',
    ],
    [
      'five-axis and polar codes',
      'macro',
      'G21 G90 G94\nG43.4 H1\nG49\nG68.2 X0 Y0 Z0 I0 J30. K0\nG53.1\nG69\nG16\nG15\nG54.1 P12\nM30\n',
    ],
    ['chosen by a variable', 'macro', 'G21 G90 G94\nG#120 X5.\nM[#1+3]\nM30\n'],
  ],
);

describe('unknown-code', () => {
  it('names the code that the other dialect has', () => {
    const text = '(probewright: dialect rs274ngc)\nG21 G90 G94\nG31 Z-10 F40\nM2\n';
    const { findings } = checkText(text, { dialect: 'rs274ngc' });
    expect(told(findings)).toEqual(['3 unknown-code']);
    expect(findings[0]?.message).toContain('in the macro dialect it is: skip move');
  });

  it('takes the dialect of the profile for certain', () => {
    const profile = '{ "dialect": "rs274ngc" }';
    const { findings } = checkText('G21 G90 G94\nG68 X0 Y0 R30\nM2\n', { dialect: 'rs274ngc', profile });
    expect(told(findings)).toEqual(['2 unknown-code']);
  });
});
