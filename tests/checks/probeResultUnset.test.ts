import { testRule } from './rulePrograms.ts';

const touched = 'G38.2 Z-10 F40\nG0 Z5\nM2\n';
const start = 'G21 G90 G94\nG0 X0 Y0 Z5\n';
const skip = 'G31 Z-10. F40.\nG0 Z5.\nIF[ABS[#5063+10.]LT0.05]GOTO90\n';

testRule(
  'probe-result-unset',
  [
    ['inline', 'rs274ngc', `${start}G10 L2 P1 Z[#5223 + #5063] ;! probe-result-unset\n${touched}`],
    ['saved', 'rs274ngc', `${start}#<_top> = #5063 ;! probe-result-unset\n${touched}`],
    [
      'in the words of the touch itself',
      'rs274ngc',
      `${start}G38.2 Z[#5063 - 10] F40 ;! probe-result-unset\nG0 Z5\nM2\n`,
    ],
    [
      'in a branch',
      'rs274ngc',
      `${start}o1 if [#<_again> EQ 1]\n  #<_top> = #5063 ;! probe-result-unset\no1 endif\n${touched}`,
    ],
    [
      'in a loop before the touch',
      'rs274ngc',
      `${start}#<_n> = 0\no1 while [#<_n> LT 3]\n  #<_n> = [#<_n> + 1]\n  #<_top> = #5063 ;! probe-result-unset\no1 endwhile\n${touched}`,
    ],
    [
      'in a skip program',
      'macro',
      `G21 G90 G94\nG0 X0. Y0. Z5.\n#101=#5063 ;! probe-result-unset\n${skip}#5223=#5223+#101\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
  ],
  [
    ['after', 'rs274ngc', `${start}G38.2 Z-10 F40\nG0 Z5\n#<_top> = #5063\nM2\n`],
    [
      'by a called touch',
      'rs274ngc',
      `o<down> sub\n  G38.2 Z-10 F40\n  G0 Z5\no<down> endsub\n${start}o<down> call\n#<_top> = #5063\nM2\n`,
    ],
    [
      'touched under the same condition',
      'rs274ngc',
      `${start}o1 if [#<_on> EQ 1]\n  G38.2 Z-10 F40\n  G0 Z5\no1 endif\no2 if [#<_on> EQ 1]\n  #<_top> = #5063\no2 endif\nM2\n`,
    ],
    [
      'in a subroutine alone',
      'rs274ngc',
      'o<read> sub\n  #<_top> = #5063\n  G38.2 Z-10 F40 ;! mode-assumed\n  G0 Z5\no<read> endsub\n',
    ],
    [
      'earlier in the loop',
      'rs274ngc',
      `${start}#<_n> = 0\no1 while [#<_n> LT 3]\n  #<_n> = [#<_n> + 1]\n  G38.2 Z-10 F40\n  G0 Z5\n  #<_top> = #5063\no1 endwhile\nM2\n`,
    ],
    ['named in a comment', 'rs274ngc', `${start}(#5063 will hold the top)\n${touched}`],
    [
      'after a skip',
      'macro',
      `G21 G90 G94\nG0 X0. Y0. Z5.\n${skip}#5223=#5223+#5063\nM30\nN90 #3000=1(NO CONTACT)\n`,
    ],
  ],
);
