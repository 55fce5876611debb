import { describe, expect, it } from 'vitest';
import { bothUseAxes, codeOf } from '../../server/program/codes.ts';
import { type BeforeBlock, missingWords } from '../../server/program/missingWords.ts';
import { unusedWords } from '../../server/program/unusedWords.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';

const before = (dialect: DialectName, more: Partial<BeforeBlock> = {}): BeforeBlock => ({
  ...{ dialect, motion: 'G0', plane: 'G17', feedMode: 'G94' },
  ...more,
});

function lacks(line: string, dialect: DialectName, more: Partial<BeforeBlock> = {}): string {
  const missing = missingWords(parseBlock(line, dialects[dialect]), before(dialect, more));
  return missing.map(({ code, letters }) => `${code} ${letters.join('|')}`).join(', ');
}

describe('words that a code needs', () => {
  it.each([
    // NISTIR 6556: 3.5.3, 3.5.4, 3.5.5, 3.5.9.1, 3.5.16, 3.5.19.
    ['g2 x1', 'G2 I|J|R'],
    ['g18 g2 x1', 'G2 I|K|R'],
    ['g2 x1 i0.5', ''],
    ['g2', ''],
    ['g4', 'G4 P'],
    ['g4 p1', ''],
    ['g10 x1', 'G10 L, G10 P'],
    ['g10 l2 p1 x1', ''],
    ['g38.2 f10', 'G38.2 X|Y|Z|U|V|W|@|^'],
    ['g38.2 z-5 f10', ''],
    ['g81 x1 z-1', 'G81 R'],
    ['g81 x1 r1', 'G81 Z'],
    ['g82 x1 z-1 r1', 'G82 P'],
    ['g83 x1 z-1 r1 q1', ''],
    ['g93 g1 x1', 'G1 F'],
    ['g93 g0 x1', ''],
    ['g92', 'G92 X|Y|Z|A|B|C|U|V|W'],
    ['g53 g0', 'G53 X|Y|Z|A|B|C|U|V|W'],
    ['m66', 'M66 P|E'],
    ['g0', ''],
    ['g43', ''],
    ['g#1', ''],
  ])('rs274ngc: %s lacks "%s"', (line, expected) => {
    expect(lacks(line, 'rs274ngc')).toBe(expected);
  });

  it.each([
    ['G65 X1.', 'G65 P'],
    ['G65 P9001 G4', ''],
    ['G31 F50', 'G31 X|Y|Z|A|B|C|U|V|W'],
    ['G31 Z-5. F50', ''],
    ['G4 X1.', ''],
    ['G83 X1. Z-1. R1.', 'G83 Q'],
    ['G82 X1. Z-1. R1.', ''],
    ['M98', 'M98 P|H'],
    ['G54.1', 'G54.1 P'],
    ['G68 X0 Y0', 'G68 R'],
    ['G92 S2000', ''],
    ['G10 L2 P1', ''],
  ])('macro: %s lacks "%s" (common practice, no source)', (line, expected) => {
    expect(lacks(line, 'macro')).toBe(expected);
  });

  it('hang on what holds before the block', () => {
    expect(lacks('x1 y1', 'rs274ngc', { motion: 'G2' })).toBe('G2 I|J|R');
    expect(lacks('x1', 'rs274ngc', { motion: 'G1', feedMode: 'G93' })).toBe('G1 F');
    expect(lacks('x1', 'rs274ngc', { motion: null, feedMode: null })).toBe('');
    expect(lacks('g81 x1', 'rs274ngc', { motion: 'G81' })).toBe('');
    expect(lacks('g83 x1 z-1', 'rs274ngc', { motion: 'G81' })).toBe('G83 Q');
    expect(lacks('G83 X1.', 'macro', { motion: 'G81' })).toBe('');
    expect(lacks('g81 x1', 'rs274ngc', { motion: null })).toBe('');
    expect(lacks('g92 x1', 'rs274ngc', { motion: 'G2' })).toBe('');
    expect(lacks('g81 x1 z-1 r1', 'rs274ngc', { plane: 'G18' })).toBe('G81 Y');
  });
});

describe('words that no code takes', () => {
  const unused = (line: string, dialect: DialectName, motion: string | null = 'G0') =>
    unusedWords(parseBlock(line, dialects[dialect]), dialect, motion).map(({ letter }) => letter);

  it('are told in rs274ngc, where the report calls them errors', () => {
    expect(unused('g0 x1 p5', 'rs274ngc')).toEqual(['P']);
    expect(unused('g43 h1 d2', 'rs274ngc')).toEqual(['D']);
    expect(unused('x1 i2', 'rs274ngc', 'G2')).toEqual([]);
    expect(unused('x1 r2', 'rs274ngc', 'G81')).toEqual([]);
    expect(unused('g64 p.1 q.1', 'rs274ngc')).toEqual([]);
    expect(unused('m101 p1 q2', 'rs274ngc')).toEqual([]);
    expect(unused('x1 p2', 'rs274ngc', null)).toEqual([]);
    expect(unused('G0 X1 P5', 'macro')).toEqual([]);
  });
});

describe('codes that both use the axis words (NISTIR 6556, 3.4)', () => {
  it.each([
    ['G92', 'G1', true],
    ['G10', 'G0', true],
    ['G28', 'G80', false],
    ['G53', 'G0', false],
  ] as const)('%s with %s: %s', (a, b, expected) => {
    const find = (name: string) => codeOf('G', Number(name.slice(1)), 'rs274ngc');
    const [first, second] = [find(a), find(b)];
    if (!first || !second) throw new Error('unknown code');
    expect(bothUseAxes(first, second, 'rs274ngc')).toBe(expected);
    expect(bothUseAxes(second, first, 'rs274ngc')).toBe(expected);
    expect(bothUseAxes(first, second, 'macro')).toBe(false);
  });
});
