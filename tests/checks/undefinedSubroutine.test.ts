import { testRule } from './rulePrograms.ts';

const up = 'o<up> sub\n  G0 Z5\no<up> endsub\n';

testRule(
  'undefined-subroutine',
  [
    ['a file that is not there', 'rs274ngc', 'G21 G90 G94\no<up> call [5] ;! undefined-subroutine\nM2\n', {}],
    ['a name mistyped', 'rs274ngc', `${up}G21 G90 G94\no<upp> call ;! undefined-subroutine\nM2\n`, {}],
    [
      'on a branch',
      'rs274ngc',
      'G21 G90 G94\no1 if [#<_far> GT 0]\n  o<out> call ;! undefined-subroutine\no1 endif\nM2\n',
      {},
    ],
    [
      'in a subroutine, in a loop',
      'rs274ngc',
      'o<up> sub\n  o1 repeat [2]\n    o100 call ;! undefined-subroutine\n  o1 endrepeat\no<up> endsub\nG21 G90 G94\no<up> call\nM2\n',
      {},
    ],
    [
      'two calls, one of them found',
      'rs274ngc',
      'G21 G90 G94\no<up> call\no<out> call ;! undefined-subroutine\nM2\n',
      { up },
    ],
    ['a subprogram that is not there', 'macro', 'O1\nG21 G90 G94\nM98 P2 ;! undefined-subroutine\nM30\n', {}],
    [
      'a macro that is not there',
      'macro',
      'O1\nG21 G90 G94\nM98 P2\nM30\nO2\nG65 P0003 A1. ;! undefined-subroutine\nM99\n',
      {},
    ],
  ],
  [
    ['in the file', 'rs274ngc', `${up}G21 G90 G94\no<up> call\nM2\n`, {}],
    ['beside the file', 'rs274ngc', 'G21 G90 G94\no<up> call\nM2\n', { up }],
    ['nobody looked', 'rs274ngc', 'G21 G90 G94\no<up> call\nM2\n'],
    ['computed', 'rs274ngc', 'G21 G90 G94\no#5 call\no[#6 + 1] call\nM2\n', {}],
    ['behind the call', 'rs274ngc', `G21 G90 G94\no<up> call\nM2\n${up}`, {}],
    ['in the file', 'macro', 'O1\nG21 G90 G94\nM98 P2\nM30\nO0002\nG0 Z5.\nM99\n', {}],
    ['the builder’s own', 'macro', 'O1\nG21 G90 G94\nG65 P9810 Z5.\nM98 P8001\nM30\n', {}],
    ['computed', 'macro', 'O1\nG21 G90 G94\nM98 P#101\nM30\n', {}],
  ],
);
