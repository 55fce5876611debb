import { describe, expect, it } from 'vitest';
import { faults, outline } from './outline.ts';

describe('N numbers', () => {
  // The lists of legal and illegal ones: NISTIR 6556, 3.3.1 and App. E (N000009 is its own counter-example).
  it.each(['N0', 'N99999', 'n00012 g90'])('%s is legal in rs274ngc', (line) => {
    expect(faults(line, 'rs274ngc')).toBe('');
  });

  it.each([
    ['N000009', 'bad-line-number@0-7'],
    ['N100000', 'bad-line-number@0-7'],
    ['N-1', 'bad-line-number@0-3'],
    ['N1.5 G1', 'bad-line-number@0-4'],
    ['N G1', 'bad-line-number@0-1'],
    ['N#1 G1', 'bad-line-number@0-1 missing-equals@1-3'],
  ])('%s is illegal in rs274ngc', (line, found) => {
    expect(faults(line, 'rs274ngc')).toBe(found);
  });

  it.each([
    ['N01', 'N1'],
    ['N0100 X1', 'N100 X=1'],
    ['N1234567X1', 'N1234567 X=1'],
    ['N G1', 'N G=1'],
    ['n 1 0', 'N10'],
    ['N10(label)', 'N10 "label"'],
  ])('%s in the macro dialect', (line, expected) => {
    expect(outline(line, 'macro')).toBe(expected);
    expect(faults(line, 'macro')).toBe('');
  });
});

describe('block delete', () => {
  it('stands before the N number', () => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      expect(outline(' / N10 g0 x1', dialect)).toBe('/ N10 G=0 X=1');
      expect(outline('/g0 x1', dialect)).toBe('/ G=0 X=1');
      expect(faults('/g0 x1', dialect)).toBe('');
    }
  });

  it('has a switch number, and other places, in the macro dialect alone', () => {
    expect(outline('/2 G1', 'macro')).toBe('/2 G=1');
    expect(outline('N10 /G1', 'macro')).toBe('/ N10 G=1');
    expect(outline('G0 X1 /Y2', 'macro')).toBe('/ G=0 X=1 Y=2');
    for (const line of ['/2 G1', 'N10 /G1', 'G0 X1 /Y2']) {
      expect(faults(line, 'macro')).toBe('');
      expect(faults(line, 'rs274ngc')).toMatch(/^unexpected-character@\d+-\d+$/);
    }
  });
});
