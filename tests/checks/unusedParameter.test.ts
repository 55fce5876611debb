import { testRule } from './rulePrograms.ts';

const mark = ';! unused-parameter';

testRule(
  'unused-parameter',
  [
    ['set and left', 'rs274ngc', `G21 G90 G94\n#<depth>=3 ${mark}\nG0 Z5\nM2\n`],
    [
      'read by another that is never read',
      'rs274ngc',
      `G21 G90 G94\n#<depth>=3 ${mark}\n#<deep>=[#<depth> * 2] ${mark}\nG0 Z5\nM2\n`,
    ],
    [
      'counted and never looked at',
      'rs274ngc',
      `G21 G90 G94\n#<n>=0 ${mark}\no1 repeat [3]\n  #<n>=[#<n> + 1]\n  G0 X5\no1 endrepeat\nM2\n`,
    ],
    [
      'a result that goes nowhere, in a subroutine',
      'rs274ngc',
      `o<top> sub\n  G38.2 Z-10 F40\n  #<height>=#5063 ${mark}\n  G0 Z5\no<top> endsub\nG21 G90 G94\no<top> call\nM2\n`,
    ],
    [
      'the caller’s is not the subroutine’s',
      'rs274ngc',
      `o<go> sub\n  #<side>=3 ${mark}\no<go> endsub\nG21 G90 G94\n#<side>=4\nG0 X#<side>\no<go> call\nM2\n`,
    ],
    [
      'on a branch, a number of the subroutine',
      'rs274ngc',
      `o<go> sub\n  o1 if [#1 GT 0]\n    #20=#1 ${mark}\n  o1 endif\no<go> endsub\nG21 G90 G94\no<go> call [5]\nM2\n`,
    ],
    ['a local of a macro', 'macro', `O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\n#10=#1*2 ${mark}\nG0 X#1\nM99\n`],
    [
      'set where a test holds',
      'macro',
      `O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\nIF[#1GT2]THEN#10=1 ${mark}\nG0 X#1\nM99\n`,
    ],
  ],
  [
    ['used', 'rs274ngc', 'G21 G90 G94\n#<depth>=3\nG0 Z#<depth>\nM2\n'],
    [
      'printed',
      'rs274ngc',
      'G21 G90 G94\n#<depth>=3\n#<wide>=4\n(print,depth #<depth>)\n(debug,#<wide>)\nM2\n',
    ],
    [
      'a comment tells what it holds',
      'rs274ngc',
      'G21 G90 G94\n#<depth>=3\nM2\n(Results: #<depth> the depth)\n',
    ],
    ['tested', 'rs274ngc', 'G21 G90 G94\n#<n>=0\no1 while [#<n> LT 3]\n  #<n>=[#<n> + 1]\no1 endwhile\nM2\n'],
    [
      'handed on and returned',
      'rs274ngc',
      'o<go> sub\n  #<twice>=[#1 * 2]\no<go> endsub [#<twice>]\nG21 G90 G94\n#<side>=4\no<go> call [#<side>]\nG0 X#<_value>\nM2\n',
    ],
    ['globals and numbers that last', 'rs274ngc', 'G21 G90 G94\n#<_far>=4\n#5=1\n#100=2\nM2\n'],
    [
      'used above, in a loop',
      'rs274ngc',
      'G21 G90 G94\n#<x>=0\no1 repeat [3]\n  G0 X#<x>\n  #<x>=5\no1 endrepeat\nM2\n',
    ],
    [
      'numbers that a computed one may read',
      'macro',
      'O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\n#10=4.\nG0 X#[#1+9]\nM99\n',
    ],
    ['numbers that M98 shares', 'macro', 'O1\nG21 G90 G94\nM98 P2\nM30\nO2\n#10=4.\nM99\n'],
    ['locals of a main program', 'macro', 'O1\nG21 G90 G94\n#10=4.\nG65 P9100 A1.\nM30\n'],
    [
      'handed to another macro',
      'macro',
      'O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\n#10=#1*2\nG65 P9100 A#10\nM99\n',
    ],
  ],
);
