import { describe, expect, it } from 'vitest';
import { checkText, told } from './marked.ts';
import { testRule } from './rulePrograms.ts';

testRule(
  'outside-dialects',
  [
    [
      'settings of printer firmware, with a G31 that moves nothing',
      'rs274ngc',
      'M558 P5 H5 F120\nG31 P500 X0 Y0 Z1.2\nM574 X1 S1\nM584 X0 Y1 ;! outside-dialects\nM569 P0 S1\nM500\n'
        .replace('M574 X1 S1', 'M574 X1 S1 ;! outside-dialects')
        .replace('Y1 ;! outside-dialects', 'Y1'),
    ],
    [
      'a printed part',
      'macro',
      'M140 S60\nM104 S210 ;! outside-dialects\nG28\nG1 X5 E2 F1800\nG31 Z-5\nG1 Z-2\n',
    ],
    ['a macro with braces', 'rs274ngc', 'G30 K0\nif {move.axes[0].homed} ;! outside-dialects\n  G31 Z1\n'],
    ['variables by name', 'rs274ngc', 'G21\nvar depth = 5 ;! outside-dialects\nG38.2 Z-5\n'],
    ['text in quotes behind a code', 'rs274ngc', 'M291 P"Move on?" S3 ;! outside-dialects\nG38.2 Z-5\n'],
    ['declared variables', 'macro', 'G54\nDEF REAL DEPTH=5 ;! outside-dialects\nMEAS=1 G1 Z-10 F100\n'],
    [
      'no text at all',
      'rs274ngc',
      '\u0000\u0001G38.2 X\u0000\u0000 ;! outside-dialects\n\u0000\u0002\u0003\n',
    ],
    [
      'prose',
      'rs274ngc',
      `The probe ;! outside-dialects\n${'Then the probe was put back into its box.\n'.repeat(25)}`.replace(
        'The probe ;! outside-dialects',
        'The probe was cleaned first. ;! outside-dialects',
      ),
    ],
  ],
  [
    ['a probing program', 'rs274ngc', 'G21 G91 G94\nG38.2 Z-10 F40\nG0 Z5\nM2\n'],
    ['braces and quotes in comments', 'rs274ngc', 'G21 G90 G94\n(MSG, "done" {1})\n; var x = 1\nM2\n'],
    [
      'names and flow',
      'rs274ngc',
      'G21 G90 G94\n#<_var> = 1\no<set> sub\n  G0 X1\no<set> endsub\no<set> call\nM2\n',
    ],
    ['a builder’s M codes', 'macro', 'G21 G90 G94\nM104\nM140\nM558\nM30\n'],
    ['an empty file', 'rs274ngc', ''],
    ['a file of blanks', 'macro', '\n\n   \n'],
    [
      'a comment names the dialect',
      'macro',
      '(probewright: dialect macro)\nG21 G90 G94\nM104 S1\nM140 S2\nM109 S3\nM30\n',
    ],
  ],
);

describe('outside-dialects', () => {
  it('says it once and nothing else, also where the rule is off', () => {
    const text = 'M140 S60\nM104 S210\nG1 X5 X6 E2\nG38.2 Z-5\n';
    expect(told(checkText(text, { dialect: 'rs274ngc' }).findings)).toEqual(['2 outside-dialects']);
    const profile = '{ "rules": { "outside-dialects": "off" } }';
    expect(checkText(text, { dialect: 'rs274ngc', profile }).findings).toEqual([]);
  });

  it('does not judge a file whose dialect the profile names', () => {
    const profile = '{ "dialect": "macro" }';
    const text = 'G21 G90 G94\nM140 S60\nM104 S210\nM109 S5\nM30\n';
    expect(checkText(text, { dialect: 'macro', profile }).findings).toEqual([]);
  });
});
