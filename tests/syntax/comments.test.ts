import { describe, expect, it } from 'vitest';
import { faults, outline } from './outline.ts';

describe('comments of both dialects', () => {
  it.each([
    ['(a)(b) g1 x1', '"a" "b" G=1 X=1'],
    ['G80 M5 (stop motion)', 'G=80 M=5 "stop motion"'],
    ['()', '""'],
    [';', ';""'],
    ['X1 ; up (really)', 'X=1 ;" up (really)"'],
    ['(#1=2 ] < é 𝛑)', '"#1=2 ] < é 𝛑"'],
    ['/(off)', '/ "off"'],
    ['(semi; colon)', '"semi; colon"'],
  ])('%s', (line, expected) => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      expect(outline(line, dialect)).toBe(expected);
      expect(faults(line, dialect)).toBe('');
    }
  });

  it('an unclosed one runs to the end of the line', () => {
    expect(outline('g1 x1 (open; it is', 'macro')).toBe('G=1 X=1 "open; it is"');
    expect(faults('g1 x1 (open; it is', 'macro')).toBe('unclosed-comment@6-18');
  });

  it('may not nest in rs274ngc (NISTIR 6556, 3.3.4)', () => {
    expect(faults('g1 (a (b) x1', 'rs274ngc')).toBe('nested-comment@6-9');
    expect(outline('g1 (a (b) x1', 'rs274ngc')).toBe('G=1 "a (b" X=1');
    expect(faults('g1 (a (b) x1', 'macro')).toBe('');
  });

  it('gives one fault for what a nested comment leaves behind', () => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      expect(faults('(a (b) c) X1', dialect)).toBe('nested-comment@3-9');
      expect(outline('(a (b) c) X1', dialect)).toBe('"a (b" stray X=1');
    }
  });
});

describe('percent lines', () => {
  it.each(['%', '  %', '% 1234 (tape)', '%O100 anything ['])('%s', (line) => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      expect(outline(line, dialect)).toBe('percent');
      expect(faults(line, dialect)).toBe('');
    }
  });
});

describe('marks that are no content', () => {
  it('a byte-order mark at the start, Ctrl-Z at the end', () => {
    expect(outline('\ufeffG1X1', 'macro')).toBe('G=1 X=1');
    expect(faults('\ufeffG1X1', 'macro')).toBe('');
    expect(outline('\ufeff%', 'macro')).toBe('percent');
    expect(outline('M30 \x1a', 'macro')).toBe('M=30');
    expect(faults('M30\x1a\x1a ', 'macro')).toBe('');
    expect(outline('\x1a', 'rs274ngc')).toBe('');
    expect(faults('\x1a', 'rs274ngc')).toBe('');
  });
});
