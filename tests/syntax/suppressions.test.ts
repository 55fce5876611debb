import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { readDirective } from '../../server/syntax/directives.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { directives, suppressions } from '../../server/syntax/suppressions.ts';

const from = (text: string) => Source.from(SourceText.from(text), dialects.rs274ngc);

describe('comments of ours', () => {
  it.each([
    [
      'probewright: allow single-fast-touch - rough location only',
      'single-fast-touch',
      'rough location only',
    ],
    [' Probewright : ALLOW Mode-Assumed — set by the operator ', 'mode-assumed', 'set by the operator'],
    ['probewright: allow syntax: tape leader', 'syntax', 'tape leader'],
    ['probewright: allow syntax tape leader', 'syntax', 'tape leader'],
    ['probewright: allow syntax', 'syntax', null],
    ['probewright: allow syntax -', 'syntax', null],
    [
      'probewright:allow no-retract-after-trip-retract in caller',
      'no-retract-after-trip-retract',
      'in caller',
    ],
  ])('%s', (comment, rule, reason) => {
    expect(readDirective(comment)).toEqual({ kind: 'allow', rule, reason });
  });

  it('others are unknown or none', () => {
    for (const [comment, written, problem] of [
      ['probewright: alow syntax - x', 'alow syntax - x', 'unknown-word'],
      ['probewright: dialect other', 'dialect other', 'unknown-dialect'],
      ['probewright: allow', 'allow', 'no-rule'],
      ['Probewright:', '', 'nothing-asked'],
      ['probewright allow syntax - x', 'allow syntax - x', 'no-colon'],
      ['PROBEWRIGHT dialect macro', 'dialect macro', 'no-colon'],
    ] as const)
      expect(readDirective(comment)).toEqual({ kind: 'unknown', written, problem });
    expect(readDirective('Probewright wrote this')).toBeNull();
    expect(readDirective('probewright: dialect macro')).toEqual({ kind: 'dialect', dialect: 'macro' });
    expect(readDirective('see probewright: allow syntax - x')).toBeNull();
    expect(readDirective('made by hand')).toBeNull();
  });
});

describe('suppressions', () => {
  it('cover their own block, or alone the next that is one', () => {
    const source = from(
      [
        'G21',
        'G38.2 Z-10 (probewright: allow single-fast-touch - rough location only)',
        '(probewright: allow mode-assumed - set by hand)',
        '',
        '; probewright: allow syntax',
        '(what follows is plain)',
        'G1 X1',
        'N10 (probewright: allow search-unbounded - long table)(probewright: allow syntax - two)',
        '(probewright: allow syntax - at the end)',
      ].join('\r\n'),
    );
    expect(suppressions(source)).toEqual([
      {
        rule: 'single-fast-touch',
        reason: 'rough location only',
        place: { line: 1, start: 11, end: 71 },
        coversLine: 1,
      },
      { rule: 'mode-assumed', reason: 'set by hand', place: { line: 2, start: 0, end: 47 }, coversLine: 6 },
      { rule: 'syntax', reason: null, place: { line: 4, start: 0, end: 27 }, coversLine: 6 },
      {
        rule: 'search-unbounded',
        reason: 'long table',
        place: { line: 7, start: 4, end: 54 },
        coversLine: 7,
      },
      { rule: 'syntax', reason: 'two', place: { line: 7, start: 54, end: 87 }, coversLine: 7 },
      { rule: 'syntax', reason: 'at the end', place: { line: 8, start: 0, end: 40 }, coversLine: 8 },
    ]);
  });

  it('are none in code, in text before the program, or in a plain comment', () => {
    const text = 'words (probewright: allow syntax - a)\n%\n(a probewright: allow syntax - b)\nM2\n%';
    expect(suppressions(from(text))).toEqual([]);
  });

  it('stand among all directives', () => {
    const found = [...directives(from('(probewright: dialect macro)\nG1 X1\n(probewright: alow syntax)'))];
    expect(found.map(({ directive, place }) => [directive.kind, place.line])).toEqual([
      ['dialect', 0],
      ['unknown', 2],
    ]);
  });
});
