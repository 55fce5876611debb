import { describe, expect, it } from 'vitest';
import { applied, checkText, told } from './marked.ts';
import { testRule } from './rulePrograms.ts';

const because = '- shown on purpose';

testRule(
  'suppression-without-reason',
  [
    [
      'alone before the block',
      'rs274ngc',
      'G21 G90 G94\n(probewright: allow syntax) ;! suppression-without-reason\nM2\n',
    ],
    [
      'at the end of the block, which stays reported',
      'rs274ngc',
      'G21 G90 G94\nG0 X1 X2 (probewright: allow repeated-word) ;! repeated-word suppression-without-reason\nM2\n',
    ],
    [
      'a dash with nothing behind it',
      'rs274ngc',
      'G21 G90 G94\n(probewright: allow syntax - ) ;! suppression-without-reason\nM2\n',
    ],
    [
      'behind a semicolon',
      'rs274ngc',
      'G21 G90 G94\n; probewright: allow syntax\nM2\n'.replace(
        'allow syntax',
        'allow syntax ;! suppression-without-reason',
      ),
    ],
    [
      'in a subroutine',
      'rs274ngc',
      'G21 G90 G94\no<a> sub\n  (probewright: allow syntax) ;! suppression-without-reason\no<a> endsub\no<a> call\nM2\n',
    ],
    [
      'at the end of a block',
      'macro',
      'G21 G90 G94\nG0 X5. (probewright: allow syntax) ;! suppression-without-reason\nM30\n',
    ],
    [
      'alone before a call',
      'macro',
      `O1
G21 G90 G94
(probewright: allow undefined-subroutine) ;! suppression-without-reason
M98 P2
M30
O2
G0 X5.
M99
`,
    ],
  ],
  [
    [
      'with a reason',
      'rs274ngc',
      `G21 G90 G94\nG0 X1 X2 (probewright: allow repeated-word ${because})\nM2\n`,
    ],
    [
      'with a long reason',
      'rs274ngc',
      'G21 G90 G94\n(probewright: allow repeated-word - the control takes the last, see its manual, p. 12 - and we rely on it)\nG0 X1 X2\nM2\n',
    ],
    [
      'capitals and blanks',
      'rs274ngc',
      `G21 G90 G94\nG0 X1 X2 ( Probewright:  allow repeated-word ${because})\nM2\n`,
    ],
    ['another comment', 'rs274ngc', 'G21 G90 G94\n(we allow this)\nM2\n'],
    ['a comment about the dialect', 'rs274ngc', '(probewright: dialect rs274ngc)\nG21 G90 G94\nM2\n'],
    [
      'a semicolon',
      'macro',
      `G21 G90 G94\nG90 G91 X5. ; probewright: allow modal-conflict ${because}\nM30\n`,
    ],
    [
      'with a reason, before a block in a subprogram',
      'macro',
      `O1
G21 G90 G94
M98 P2
M30
O2
(probewright: allow modal-conflict - shown on purpose)
G90 G91 X5.
M99
`,
    ],
  ],
);

testRule(
  'unused-suppression',
  [
    [
      'at the end of a block',
      'rs274ngc',
      `G21 G90 G94\nG0 X1 (probewright: allow repeated-word ${because}) ;! unused-suppression\nM2\n`,
    ],
    [
      'alone before a block',
      'rs274ngc',
      `G21 G90 G94\n(probewright: allow repeated-word ${because}) ;! unused-suppression\nG0 X1\nM2\n`,
    ],
    [
      'the fault is two blocks on',
      'rs274ngc',
      `G21 G90 G94\n(probewright: allow repeated-word ${because}) ;! unused-suppression\nG0 X1\nG0 X1 X2 ;! repeated-word\nM2\n`,
    ],
    [
      'another rule’s fault',
      'rs274ngc',
      `G21 G90 G94\nG0 X1 X2 (probewright: allow modal-conflict ${because}) ;! repeated-word unused-suppression\nM2\n`,
    ],
    [
      'no such rule',
      'rs274ngc',
      `G21 G90 G94\n(probewright: allow repeated-words ${because}) ;! unused-suppression\nG0 X1 X2 ;! repeated-word\nM2\n`,
    ],
    [
      'a word of ours misspelt',
      'rs274ngc',
      `G21 G90 G94\nG0 X1 X2 (probewright: alow repeated-word ${because}) ;! repeated-word unused-suppression\nM2\n`,
    ],
    [
      'our name misspelt',
      'rs274ngc',
      `G21 G90 G94\n(probewrite: allow repeated-word ${because}) ;! unused-suppression\nG0 X1 X2 ;! repeated-word\nM2\n`,
    ],
    [
      'our name in two words',
      'macro',
      `G21 G90 G94\n(Probe Wright: allow modal-conflict ${because}) ;! unused-suppression\nG90 G91 X5. ;! modal-conflict\nM30\n`,
    ],
    [
      'no colon, and the rule misspelt',
      'macro',
      `G21 G90 G94\n(probewright allow modal-conflicts ${because}) ;! unused-suppression\nG90 G91 X5. ;! modal-conflict\nM30\n`,
    ],
    ['nothing behind the colon', 'rs274ngc', 'G21 G90 G94\n(probewright:) ;! unused-suppression\nM2\n'],
    ['no rule', 'rs274ngc', 'G21 G90 G94\n(probewright: allow - why) ;! unused-suppression\nM2\n'],
    [
      'a dialect misspelt',
      'rs274ngc',
      '(probewright: dialect rs274-ngc) ;! unused-suppression\nG21 G90 G94\nM2\n',
    ],
    [
      'on the last line',
      'macro',
      `G21 G90 G94\nM30\n(probewright: allow syntax ${because}) ;! unused-suppression\n`,
    ],
    [
      'in a subprogram',
      'macro',
      `O1\nG21 G90 G94\nM98 P2\nM30\nO2\n(probewright: allow syntax ${because}) ;! unused-suppression\nG0 X5.\nM99\n`,
    ],
  ],
  [
    [
      'its own block',
      'rs274ngc',
      `G21 G90 G94\nG0 X1 X2 (probewright: allow repeated-word ${because})\nM2\n`,
    ],
    [
      'the next block',
      'rs274ngc',
      `G21 G90 G94\n(probewright: allow repeated-word ${because})\nG0 X1 X2\nM2\n`,
    ],
    [
      'the next block, behind blank lines and comments',
      'rs274ngc',
      `G21 G90 G94\n(probewright: allow repeated-word ${because})\n\n(edge)\nG0 X1 X2\nM2\n`,
    ],
    [
      'two rules for one block',
      'rs274ngc',
      `G21 G90 G94\n(probewright: allow repeated-word ${because})\n(probewright: allow modal-conflict ${because})\nG0 G1 X1 X2 F5\nM2\n`,
    ],
    [
      'a touch in a subroutine, reached by two calls',
      'rs274ngc',
      `G21 G91 G94\no<a> sub\n  (probewright: allow probe-feed-unset ${because})\n  G38.2 Z-5\n  G0 Z5\no<a> endsub\no<a> call\no<a> call\nM2\n`,
    ],
    [
      'the rule is turned off',
      'rs274ngc',
      `G21 G90 G94\nG0 X1 (probewright: allow repeated-word ${because})\nM2\n`,
      '{ "rules": { "repeated-word": "off" } }',
    ],
    [
      'prose about probing',
      'rs274ngc',
      'G21 G90 G94\n(probe routine: allow 5 mm of travel)\n(probing allows for this)\n(we allow it)\nM2\n',
    ],
    [
      'the name of who wrote it',
      'rs274ngc',
      'G21 G90 G94\n(bore, written by Probewright. allow for time)\nM2\n',
    ],
    [
      'the end of a block',
      'macro',
      `G21 G90 G94\nG90 G91 X5. (probewright: allow modal-conflict ${because})\nM30\n`,
    ],
    [
      'alone before the block',
      'macro',
      `G21 G90 G94
(probewright: allow modal-conflict - shown on purpose)
G90 G91 X5.
M30
`,
    ],
    [
      'a rule of touches, in a subprogram',
      'macro',
      `O1
G21 G91 G94
M98 P2
M30
O2
(probewright: allow probe-feed-unset - the caller gives it)
G31 Z-5.
G0 Z5.
M99
`,
    ],
  ],
);

describe('misspelt comments', () => {
  const said = (comment: string) => {
    const [finding] = checkText(`G21 G90 G94\n${comment}\nM2\n`, { dialect: 'rs274ngc' }).findings;
    return [finding?.message, ...(finding?.fixes.map(({ title }) => title) ?? [])].join(' | ');
  };
  it('are told with the closest right spelling, as far as there is one', () => {
    expect(said('(probewright: alow repeated-wrd - a, b)')).toBe(
      '"alow" is neither "allow" nor "dialect", so this comment does nothing. Perhaps it should be: probewright: allow repeated-word - a, b | Write "probewright: allow repeated-word - a, b"',
    );
    expect(said('; probwright: allow syntax')).toBe(
      '"probwright" is not "probewright", so this comment does nothing. Perhaps it should be: probewright: allow syntax',
    );
    expect(said('(probewright: please look away)')).toBe(
      '"please" is neither "allow" nor "dialect", so this comment does nothing.',
    );
    expect(said('(probewright: dialect macros)')).toContain('Write "probewright: dialect macro"');
    expect(said('(probewright: allow repeated-words - x)')).toContain(
      'Perhaps repeated-word is meant. | Write "repeated-word" | Remove the comment',
    );
  });
});

describe('suppressions', () => {
  it('are counted', () => {
    const text = `G21 G90 G94\nG0 X1 X2 Y1 Y2 (probewright: allow repeated-word ${because})\nM2\n`;
    expect(checkText(text, { dialect: 'rs274ngc' })).toEqual({ findings: [], suppressed: 2 });
  });

  it('are taken out whole where they stand alone, and without a trace elsewhere', () => {
    const text = `G21 G90 G94\r\n  (probewright: allow syntax ${because})\r\nG0 X1  (probewright: allow syntax ${because})\r\nM2\r\n`;
    const { findings } = checkText(text, { dialect: 'rs274ngc' });
    expect(told(findings)).toEqual(['2 unused-suppression', '3 unused-suppression']);
    const edits = findings.flatMap(({ fixes }) => fixes.flatMap((fix) => fix.edits));
    expect(applied(text, edits)).toBe('G21 G90 G94\r\nG0 X1\r\nM2\r\n');
  });
});
