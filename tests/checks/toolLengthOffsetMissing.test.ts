import { testRule } from './rulePrograms.ts';

const mark = ';! tool-length-offset-missing';
const height = '#<top>=#5063\nG0 Z5\nG10 L2 P1 Z#<top>\n';
/** A macro program that takes the end of its travel for a miss. */
const skipped = '#101=#5063\nG0 Z5.\nIF[#101LT-9.9]GOTO9\nG10 L2 P1 Z#101\nN9 M30\n';

testRule(
  'tool-length-offset-missing',
  [
    ['off, said at the start', 'rs274ngc', `G21 G90 G94 G49\nG38.2 Z-10 F40 ${mark}\n${height}M2\n`],
    [
      'off, said after the change',
      'rs274ngc',
      `G21 G90 G94\nT99 M6\nG43 H99\nG49\nG38.2 Z-10 F40 ${mark}\n${height}M2\n`,
    ],
    [
      'off on one branch',
      'rs274ngc',
      `G21 G90 G94\nG43 H99\no1 if [#<_dry> GT 0]\n  G49\no1 endif\nG38.2 Z-10 F40 ${mark}\n${height}M2\n`,
    ],
    [
      'the last tool’s length',
      'rs274ngc',
      `G21 G90 G94\nT4 M6\nG43\nG0 Z50\nT99 M6\nG38.2 Z-10 F40 ${mark}\n${height}M2\n`,
    ],
    [
      'another tool’s number',
      'rs274ngc',
      `G21 G90 G94\nT99 M6 G43 H4\nG38.2 Z-10 F40 ${mark}\n${height}M2\n`,
    ],
    [
      'in a called subroutine, set by an offset parameter',
      'rs274ngc',
      `o<top> sub\n  G38.2 Z-10 F40 ${mark}\n  #5223=#5063\n  G0 Z5\no<top> endsub\nG21 G90 G94 G49\no<top> call\nM2\n`,
    ],
    [
      'in a loop',
      'rs274ngc',
      `G21 G90 G94 G49\no1 repeat [2]\n  G38.2 Z-10 F40 ${mark}\n  #<top>=#5063\n  G0 Z5\n  G10 L2 P1 Z#<top>\no1 endrepeat\nM2\n`,
    ],
    ['off', 'macro', `G21 G90 G94 G49\nG31 Z-10. F40. ${mark}\n${skipped}`],
    [
      'the last tool’s length',
      'macro',
      `G21 G90 G94\nT4 M6\nG43 H4 Z50.\nT99 M6\nG31 Z-10. F40. ${mark}\n${skipped}`,
    ],
  ],
  [
    ['nothing said', 'rs274ngc', `G21 G90 G94\nG38.2 Z-10 F40\n${height}M2\n`],
    ['the probe’s length', 'rs274ngc', `G21 G90 G94 G49\nT99 M6\nG43 H99\nG38.2 Z-10 F40\n${height}M2\n`],
    ['the loaded tool’s length', 'rs274ngc', `G21 G90 G94 G49\nT99 M6\nG43\nG38.2 Z-10 F40\n${height}M2\n`],
    [
      'a side, not a height',
      'rs274ngc',
      'G21 G90 G94 G49\nG38.2 X10 F40\n#<edge>=[#5061 + 3]\nG0 X0\n#<_edge>=#<edge>\nM2\n',
    ],
    ['no datum', 'rs274ngc', 'G21 G90 G94 G49\nG38.2 Z-10 F40\n#<_top>=#5063\nG0 Z5\nM2\n'],
    [
      'a subroutine that nobody calls',
      'rs274ngc',
      `G21 G90 G94 G49\nG0 X5\nM2\no<top> sub\n  G21 G90 G94\n  G38.2 Z-10 F40\n${height}o<top> endsub\n`,
    ],
    [
      'each branch its own tool and length',
      'rs274ngc',
      `G21 G90 G94\no1 if [#<_long> GT 0]\n  T98 M6\n  G43 H98\no1 else\n  T99 M6\n  G43 H99\no1 endif\nG38.2 Z-10 F40\n${height}M2\n`,
    ],
    [
      'a number of the shop’s own',
      'macro',
      `G21 G90 G94 G49\nT99 M6\nG43 H49 Z50.\nG31 Z-10. F40.\n${skipped}`,
    ],
    ['nothing said', 'macro', `G21 G90 G94\nT99 M6\nG31 Z-10. F40.\n${skipped}`],
  ],
);
