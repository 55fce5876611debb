import { describe, expect, it } from 'vitest';
import { applied, checkText } from './marked.ts';
import { testRule } from './rulePrograms.ts';

testRule(
  'mode-assumed',
  [
    ['nothing set', 'rs274ngc', 'G38.2 Z-10 F40 ;! mode-assumed\nG53 G0 Z0\nM2\n'],
    ['no units', 'rs274ngc', 'G90 G94\nG0 Z5\nG38.2 Z-10 F40 ;! mode-assumed\nG0 Z5\nM2\n'],
    ['no feed mode', 'rs274ngc', 'G21 G91\nG38.2 Z-10 F40 ;! mode-assumed\nG0 Z5\nM2\n'],
    [
      'set on one branch only',
      'rs274ngc',
      'G21 G94\no1 if [#1 GT 0]\n  G91\no1 endif\nG38.2 Z-10 F40 ;! mode-assumed\nG53 G0 Z0\nM2\n',
    ],
    [
      'only the first of several',
      'rs274ngc',
      'G21 G91\nG38.2 Z-10 F40 ;! mode-assumed\nG0 Z5\nG38.2 Z-10\nG0 Z5\nM2\n',
    ],
    [
      'the called subroutine relies on its caller, who sets nothing',
      'rs274ngc',
      'o<d> sub\n  G91 G38.2 Z-10 F40 ;! mode-assumed\n  G0 Z5\no<d> endsub\no<d> call\nM2\n',
    ],
    ['set after the touch', 'rs274ngc', 'G91 G94\nG38.2 Z-10 F40 ;! mode-assumed\nG0 Z5\nG21\nM2\n'],
    [
      'a file of subroutines',
      'rs274ngc',
      'o<d> sub\n  G38.2 Z-#1 F40 ;! mode-assumed\n  G0 Z5\no<d> endsub\no<e> sub\n  G91 G38.2 X#1 F40 ;! mode-assumed\n  G0 X-5\no<e> endsub\n',
    ],
    ['nothing set', 'macro', '%\nO0100\nG31 Z-10. F40. ;! mode-assumed\nG28 Z0.\nM30\n%\n'],
    [
      'a jump passes the modes by',
      'macro',
      'G21 G94\nIF[#1EQ1]GOTO5\nG91\nN5 G31 Z-10. F40. ;! mode-assumed\nG28 Z0.\nM30\n',
    ],
    [
      'units on one branch only',
      'macro',
      `G90 G94
G0 Z5.
IF[#4006EQ21]GOTO5
G21
N5 G31 Z-10. F40. ;! mode-assumed
G28 Z0.
M30
`,
    ],
  ],
  [
    ['all set in the start block', 'rs274ngc', 'G17 G21 G40 G49 G90 G94\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['set in the touch’s own block', 'rs274ngc', 'G21 G91 G94 G38.2 Z-10 F40\nG0 Z5\nM2\n'],
    [
      'set by both branches',
      'rs274ngc',
      'G21 G94\no1 if [#1 GT 0]\n  G91\no1 else\n  G90\no1 endif\nG38.2 Z-10 F40\nG53 G0 Z0\nM2\n',
    ],
    [
      'set by a called subroutine',
      'rs274ngc',
      'o<start> sub\n  G21 G90 G94\no<start> endsub\no<start> call\nG38.2 Z-10 F40\nG0 Z5\nM2\n',
    ],
    [
      'the caller set them',
      'rs274ngc',
      'G21 G91 G94\no<d> sub\n  G38.2 Z-10 F40\n  G0 Z5\no<d> endsub\no<d> call\nM2\n',
    ],
    ['no touch', 'rs274ngc', 'G0 X5\nG1 X6 F100\nM2\n'],
    [
      'a subroutine that sets its own',
      'rs274ngc',
      'o<d> sub\n  G21 G91 G94\n  G38.2 Z-10 F40\n  G0 Z5\no<d> endsub\n',
    ],
    ['set in single blocks', 'macro', 'G21\nG94\nG91\nG31 Z-10. F40.\nG0 Z5.\nM30\n'],
    [
      'set in a subprogram that is called first',
      'macro',
      `O1
M98 P2
G0 Z5.
G31 Z-10. F40.
G28 Z0.
M30
O2
G21 G90 G94
M99
`,
    ],
    [
      'set on both branches',
      'macro',
      `G94
IF[#1EQ1]GOTO5
G20 G90
GOTO6
N5 G21 G90
N6 G0 Z5.
G31 Z-1. F10.
G28 Z0.
M30
`,
    ],
  ],
);

describe('mode-assumed', () => {
  it('is a warning in a program and information in a file of subroutines', () => {
    const severities = (text: string) =>
      checkText(text, { dialect: 'rs274ngc' }).findings.map(({ severity }) => severity);
    expect(severities('G38.2 Z-10 F40\nG53 G0 Z0\nM2\n')).toEqual(['warning']);
    expect(severities('o<d> sub\n  G38.2 Z-10 F40\n  G0 Z5\no<d> endsub\n')).toEqual(['info']);
  });

  it('names what is missing, and sets that alone, before the first block that does anything', () => {
    const program = '%\n(top face)\n\nT9 M6\nG91\nG38.2 Z-10 F40\nG0 Z5\nM2\n%\n';
    const [finding] = checkText(program, { dialect: 'rs274ngc' }).findings;
    expect(finding?.message).toContain('units (G20 or G21) and feed mode');
    expect(finding?.message).not.toContain('distance');
    expect(applied(program, finding?.fixes[0]?.edits ?? [])).toBe(program.replace('T9', 'G21 G94\nT9'));
  });
});
