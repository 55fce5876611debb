import { testRule } from './rulePrograms.ts';

testRule(
  'probe-feed-unset',
  [
    ['no F at all', 'rs274ngc', 'G21 G90 G94\nG91 G38.2 Z-10 ;! probe-feed-unset\nG0 Z2\nM2\n'],
    [
      'F on one branch only',
      'rs274ngc',
      `G21 G91 G94
o1 if [#1 GT 0]
  F40
o1 endif
G38.2 Z-10 ;! probe-feed-unset
G0 Z2
M2
`,
    ],
    [
      'in a called subroutine',
      'rs274ngc',
      `G21 G91 G94
o<down> sub
  G38.2 Z-10 ;! probe-feed-unset
  G0 Z2
o<down> endsub
o<down> call
M2
`,
    ],
    ['F comes after the touch', 'rs274ngc', 'G20 G91 G94\nG38.2 Z-1 ;! probe-feed-unset\nF2\nG0 Z.1\nM2\n'],
    [
      'in a loop that may start without one',
      'rs274ngc',
      `G21 G91 G94
#1 = 0
o1 while [#1 LT 2]
  G38.2 Z-10 ;! probe-feed-unset
  G0 Z2 F40
  #1 = [#1 + 1]
o1 endwhile
M2
`,
    ],
    ['a feed of zero', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-10 F0 ;! probe-feed-unset\nG0 Z2\nM2\n'],
    [
      'the call leaves the feed out',
      'rs274ngc',
      'G21 G91 G94\no1 sub\n  G38.2 Z-#1 F#2 ;! probe-feed-unset unset-parameter\n  G0 Z2\no1 endsub\no1 call [10]\nM2\n',
    ],
    ['no F at all', 'macro', 'G21 G91 G94\nG31 Z-10. ;! probe-feed-unset\nG0 Z5.\nM30\n'],
    [
      'a jump passes the F by',
      'macro',
      `G21 G91 G94
IF[#101EQ1]GOTO5
F40.
N5 G31 Z-10. ;! probe-feed-unset
G0 Z5.
M30
`,
    ],
    [
      'in a subprogram of the same file',
      'macro',
      'O0100\nG21 G91 G94\nM98 P200\nF40.\nM30\nO0200\nG31 Z-10. ;! probe-feed-unset\nG0 Z5.\nM99\n',
    ],
  ],
  [
    ['in the block', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-10 F40\nG0 Z2\nM2\n'],
    ['on a line of its own', 'rs274ngc', 'G21 G91 G94\nF40\nG0 X5\nG38.2 Z-10\nG0 Z2\nM2\n'],
    ['from an earlier cut', 'rs274ngc', 'G21 G90 G94\nG1 X5 F100\nG38.2 Z-10\nG0 Z2\nM2\n'],
    ['open subroutine', 'rs274ngc', 'o<down> sub\n  G21 G91 G94\n  G38.2 Z-10\n  G0 Z2\no<down> endsub\n'],
    [
      'both branches set one',
      'rs274ngc',
      'G21 G91 G94\no1 if [#1 GT 0]\n  F40\no1 else\n  F60\no1 endif\nG38.2 Z-10\nG0 Z2\nM2\n',
    ],
    [
      'set by the caller before the call',
      'rs274ngc',
      'G21 G91 G94\no1 sub\n  G38.2 Z-10\n  G0 Z2\no1 endsub\nF40\no1 call\nM2\n',
    ],
    ['from a variable', 'macro', 'G21 G91 G94\nG31 Z-10. F#9\nG0 Z5.\nM30\n'],
    ['from an expression', 'macro', 'G21 G91 G94\nG31 Z-10. F[#653/2]\nG0 Z5.\nM30\n'],
    [
      'macro called by another file',
      'macro',
      'O9100\nG91\nG31 Z-#26\nG0 Z5.\nM99\n'.replace('G91\n', 'G21 G91 G94\n'),
    ],
  ],
);
