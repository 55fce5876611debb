import { testRule } from './rulePrograms.ts';

const mark = ';! unset-parameter';

testRule(
  'unset-parameter',
  [
    ['a name mistyped', 'rs274ngc', `G21 G90 G94\n#<depth>=3\nG0 Z[#<dept> + 1] ${mark}\nG0 X#<depth>\nM2\n`],
    ['set later', 'rs274ngc', `G21 G90 G94\nG0 X#<side> ${mark}\n#<side>=3\nG0 Y#<side>\nM2\n`],
    ['in a test', 'rs274ngc', `G21 G90 G94\no1 if [#<mode> GT 0] ${mark}\n  G0 X5\no1 endif\nM2\n`],
    [
      'the caller’s name is not the subroutine’s',
      'rs274ngc',
      `o<go> sub\n  G0 X#<side> ${mark}\no<go> endsub\nG21 G90 G94\n#<side>=3\nG0 Y#<side>\no<go> call\nM2\n`,
    ],
    [
      'read on every path, set on none',
      'rs274ngc',
      `G21 G90 G94\no1 if [#5 GT 0]\n  #<a>=1\no1 else\n  #<a>=2\no1 endif\nG0 X[#<a> + #<b>] ${mark}\nM2\n`,
    ],
    [
      'a number that no call fills',
      'rs274ngc',
      `o<go> sub\n  G0 X#1 Y#2 ${mark}\no<go> endsub\nG21 G90 G94\no<go> call [5]\no<go> call [6]\nM2\n`,
    ],
    [
      'handed on, in a loop',
      'rs274ngc',
      `o<go> sub\n  G0 X#1\no<go> endsub\nG21 G90 G94\no1 repeat [3]\n  o<go> call [#<next>] ${mark}\no1 endrepeat\nM2\n`,
    ],
    [
      'an argument that no call hands over: called without any',
      'rs274ngc',
      `o<go> sub\n  G0 X[#1 + 5] ${mark}\no<go> endsub\nG21 G90 G94\no<go> call\no<go> call\nM2\n`,
    ],
    [
      'an argument that no call hands over: G65 with none',
      'macro',
      `O1\nG21 G90 G94\nG65 P2\nM30\nO2\nG0 X#24 ${mark}\nM99\n`,
    ],
    ['a local of a macro', 'macro', `O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\nG0 X#1\nG0 Y#2 ${mark}\nM99\n`],
    [
      'a local of a macro, in a sum',
      'macro',
      `O1\nG21 G90 G94\nG65 P2 A1. B2.\nM30\nO2\n#10=#1+#11 ${mark}\nG0 X#10 Y#2\nM99\n`,
    ],
  ],
  [
    [
      'set on one path',
      'rs274ngc',
      'G21 G90 G94\no1 if [#<_top> GT 0]\n  #<depth>=3\no1 endif\nG0 Z[#<depth> + 1]\nM2\n',
    ],
    ['globals and numbers that last', 'rs274ngc', 'G21 G90 G94\nG0 X#<_far> Y#5 Z#100\nM2\n'],
    [
      'arguments, some of them optional',
      'rs274ngc',
      'o<go> sub\n  G0 X#1 Y#2\no<go> endsub\nG21 G90 G94\no<go> call [5]\no<go> call [6] [7]\nM2\n',
    ],
    [
      'an argument that one call hands over, and another does not',
      'rs274ngc',
      'o<go> sub\n  G0 X#1\no<go> endsub\nG21 G90 G94\no<go> call\no<go> call [5]\nM2\n',
    ],
    [
      'called without arguments, where the subroutine gives them itself',
      'rs274ngc',
      'o<go> sub\n  #1=5\n  G0 X#1\no<go> endsub\nG21 G90 G94\no<go> call\nM2\n',
    ],
    [
      'called without arguments from a file that is not here',
      'rs274ngc',
      'o<go> sub\n  G0 X#1\no<go> endsub\no<main> sub\n  o<go> call\no<main> endsub\n',
    ],
    [
      'a call with a fault: what it was to hand over is not known',
      'rs274ngc',
      'o<go> sub\n  G0 X#1\no<go> endsub\nG21 G90 G94\no<go> call 5 ;! syntax\nM2\n',
    ],
    [
      'an argument that may be left out',
      'rs274ngc',
      'o<go> sub\n  o1 if [#2 EQ 0]\n    #2=5\n  o1 endif\n  G0 X#1 Y#2\no<go> endsub\nG21 G90 G94\no<go> call [5]\nM2\n',
    ],
    [
      'asked whether it is there',
      'rs274ngc',
      'G21 G90 G94\no1 if [EXISTS[#<side>]]\n  G0 X#<side>\no1 endif\nM2\n',
    ],
    [
      'set by an earlier pass',
      'rs274ngc',
      'G21 G90 G94\no1 while [#5 LT 3]\n  o2 if [#5 GT 0]\n    G0 X#<last>\n  o2 endif\n  #<last>=#5\n  #5=[#5 + 1]\no1 endwhile\nM2\n',
    ],
    ['a file of subroutines', 'rs274ngc', 'o<go> sub\n  G0 X#1 Y#2 Z#<p>\no<go> endsub\n'],
    ['locals of a main program', 'macro', 'O1\nG21 G90 G94\nG0 X#1 Y#33\nM30\n'],
    ['locals that M98 shares', 'macro', 'O1\nG21 G90 G94\n#2=5.\nM98 P2\nM30\nO2\nG0 X#2 Y#3\nM99\n'],
    [
      'an argument tested for nothing',
      'macro',
      'O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\nIF[#2NE#0]GOTO5\n#2=4.\nN5 G0 X#1 Y#2\nM99\n',
    ],
    ['set by a computed number', 'macro', 'O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\n#[#1+9]=4.\nG0 X#10\nM99\n'],
  ],
);
