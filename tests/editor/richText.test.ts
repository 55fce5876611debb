import fc from 'fast-check';
import { expect, test } from 'vitest';
import { code, type Part, paragraph, toMarkdown, toPlain } from '../../server/editor/richText.ts';

const table: Part = {
  kind: 'table',
  head: ['what', 'value'],
  rows: [
    ['a|b', '**1.0 µm**'],
    ['[line 3](file:///x#L3)', '12.0 µm'],
  ],
  right: [1],
};

test('a table in Markdown keeps its columns apart from bars in its text', () => {
  expect(toMarkdown([table], { pictures: false }).split('\n').slice(1, 3)).toEqual([
    '| --- | --: |',
    '| a\\|b | **1.0 µm** |',
  ]);
});

test('a table as plain text stands in columns without marks', () => {
  expect(toPlain([table]).split('\n')).toEqual(['what      value', 'a|b      1.0 µm', 'line 3  12.0 µm']);
});

test('a picture is base64 of its UTF-8 and left out where it is not drawn', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (svg) => {
      const picture: Part = { kind: 'picture', svg, alt: 'p' };
      const wanted = `![p](data:image/svg+xml;base64,${Buffer.from(svg, 'utf8').toString('base64')})`;
      expect(toMarkdown([picture], { pictures: true })).toBe(wanted);
      expect(toMarkdown([paragraph('x'), picture], { pictures: false })).toBe('x');
    }),
  );
});

// CommonMark 0.31, 6.1: a code span ends at the next run of exactly as many backticks as it began with.
test('a span of code ends where its text ends, whatever is in it', () => {
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom('`', 'a', ' ', '*') }), (text) => {
      fc.pre(text.trim() !== '');
      const span = code(text);
      const fence = /^`+/.exec(span)?.[0] ?? '';
      const inside = span.slice(fence.length, -fence.length);
      expect(inside.trim()).toBe(text.trim());
      expect((inside.match(/`+/g) ?? []).every((run) => run.length !== fence.length)).toBe(true);
    }),
  );
});
