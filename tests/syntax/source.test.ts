import { describe, expect, it } from 'vitest';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

const from = (text: string, dialect: DialectName = 'rs274ngc') =>
  Source.from(SourceText.from(text), dialects[dialect]);

describe('classes of lines', () => {
  it.each([
    ['', 0],
    [' \t', 0],
    ['\ufeff', 0],
    ['G1 X1 Y-2.5 Z+.5 F100', 1],
    ['N10G01X1', 1],
    ['g0 x 1', 1],
    ['X1 Y2', 1],
    ['N10', 1],
    ['F100', 1],
    ['S1200', 1],
    ['G2 X1 I3 J-4', 1],
    ['G03 X1 R5.', 1],
    ['I1 J2', 1],
    ['A1 B2 C3 U4 V5 W6', 1],
    ['\ufeffG1 X1', 1],
    ['G4 P1', 2],
    ['G38.2 Z-1', 2],
    ['G0.5', 2],
    ['G001', 2],
    ['G1 G0', 2],
    ['X1 X2', 2],
    ['X1 N10', 2],
    ['N10 N20', 2],
    ['X1 2', 2],
    ['X1 .5', 2],
    ['X', 2],
    ['X.', 2],
    ['X1.2.3', 2],
    ['X#1', 2],
    ['X[1]', 2],
    ['X1 (c)', 1],
    ['X1 (MSG, c)', 2],
    ['(c)', 2],
    ['X1;', 1],
    ['/X1', 2],
    ['%', 2],
    ['M3', 2],
    ['T1', 2],
    ['E1', 2],
    ['F-1', 2],
    ['G2 X1', 2],
    ['G1 X1 I2', 2],
    ['o1 sub', 2],
    ['X1\x1a', 2],
  ])('%j is of class %i', (line, expected) => {
    expect(from(line).classOf(0)).toBe(expected);
    expect(from(`${line}\r\nM2`).classOf(0)).toBe(expected);
  });

  it('of a plain line do not depend on its N number, and need a line that all dialects take', () => {
    expect(from('N100000 X1').classOf(0)).toBe(1);
    expect(from('N100000 X1', 'macro').classOf(0)).toBe(1);
    const long = `X1${' '.repeat(255)}`;
    expect(from(long).classOf(0)).toBe(2);
    expect(from(long, 'macro').classOf(0)).toBe(2);
    expect(from(long.slice(0, 256)).classOf(0)).toBe(1);
  });

  it('tell the long N numbers of plain lines', () => {
    const text = '%\nN1 X1\nN100000 X1\nN100001 (a)\nN100002 M8\nN100003\nM2\n%\nN100003\n';
    expect(from(text).longNumberLines()).toEqual({ first: 2, count: 3 });
    expect(from('X1\nN99999').longNumberLines()).toEqual({ first: null, count: 0 });
  });
});

describe('what is looked for in a million lines', () => {
  const body = 'G1 X1\n'.repeat(1000);

  it('lines that are neither blank nor plain, in order', () => {
    const source = from(`G21\n\n${body}(a)\n${body}M2`);
    expect([...source.otherLines()]).toEqual([0, 1002, 2003]);
  });

  it.each([
    ['G38.2 Z-10', true],
    ['g 38 . 3 z-10', true],
    ['G90 G31 Z-10', true],
    ['(a) N10 G038.5 X1', true],
    ['G38 X1', false],
    ['G310', false],
    ['(G38.2 Z-10)', false],
    ['M3 ; G31 here', false],
    ['G65 P31', false],
  ])('whether a touch stands in %j: %s', (line, expected) => {
    expect(from(`${body}${line}\n${body}`).hasTouch()).toBe(expected);
  });

  it('blocks, parsed once while they are in use', () => {
    const source = from(`${body}G38.2 Z-1`);
    expect(source.block(1000)).toBe(source.block(1000));
    expect(source.block(1000).items).toHaveLength(2);
    expect(source.block(-1)).toEqual({ text: '', items: [], faults: [] });
  });
});

describe('an edit', () => {
  const program = `${'G1 X1 Y2\n'.repeat(100_000)}M2\n`;
  const change = { line: 50_000, start: 0, endLine: 50_000, end: 5, text: 'G38.2 Z-1' };

  it('looks at the touched chunk alone', () => {
    const source = from(program);
    const edited = source.edit(change);
    expect(source.chunksScanned).toBeGreaterThan(300);
    expect(edited.chunksScanned).toBe(1);
    expect(edited.hasTouch()).toBe(true);
    expect(source.hasTouch()).toBe(false);
    expect([...edited.otherLines()]).toEqual([50_000, 100_000]);
  });

  it('keeps the blocks of untouched chunks', () => {
    const source = from(program);
    const block = source.block(100_000);
    expect(source.edit(change).block(100_000)).toBe(block);
    const longer = source.edit({ ...change, text: 'G0\nG1\n' });
    expect(longer.block(100_002)).toBe(block);
    expect(longer.block(50_001).text).toBe('G1');
  });
});

describe('the program between its % lines (NISTIR 6556, 3.1)', () => {
  const outside = (text: string) => {
    const source = from(text, 'macro');
    return [source.programStart, source.programEnd];
  };

  it.each([
    ['no % at all', 'G1 X1\nM2\n', [0, 3]],
    ['opening and closing', '%\nG1\n%\n', [0, 3]],
    ['text before it', 'PROBE BORE, REV 3\nfor the casting!\n%\nO1\nM30\n%', [2, 6]],
    ['garbage behind it', '%\ng0x1\n%\nGARBAGE', [0, 3]],
    ['only a closing one', 'G0 X1\nM30\n%\n', [0, 4]],
    ['only an opening one', '%\nG0 X1\nM30', [0, 3]],
    ['program before it', 'G0 X1\n%\nG0 X2\n%\n', [0, 5]],
    ['a comment before it', '(bore)\n%\nG0 X2\n%\n', [0, 5]],
    ['several programs', '%\nO1\n%\nO2\n%\nO3\n%', [0, 7]],
    ['text and nothing else', 'Some words here\n%\n', [0, 3]],
  ])('%s', (_, text, expected) => {
    expect(outside(text)).toEqual(expected);
  });

  it('is all that is read', () => {
    const source = from('Probe the bore; then X1\n\n%\nG38.2 Z-1\n%\nthe end', 'rs274ngc');
    expect(source.classOf(0)).toBe(0);
    expect([...source.otherLines()]).toEqual([2, 3, 4]);
    expect(source.block(0)).toMatchObject({ items: [{ kind: 'stray', start: 0, end: 23 }], faults: [] });
  });

  it('follows an edit', () => {
    const source = from('Some words here\n%\nG0 X1\n%\n');
    expect(source.programStart).toBe(1);
    expect(source.edit({ line: 1, start: 0, endLine: 2, end: 0, text: '' }).programStart).toBe(0);
  });
});
