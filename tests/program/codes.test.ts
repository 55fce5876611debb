import { describe, expect, it } from 'vitest';
import { codeName, codeOf, codesOf, conflicting } from '../../server/program/codes.ts';

/** NISTIR 6556, table 4 (modal groups), read. */
const tableFour: readonly (readonly string[])[] = [
  ['G4', 'G10', 'G28', 'G30', 'G53', 'G92', 'G92.1', 'G92.2', 'G92.3'],
  'G0 G1 G2 G3 G38.2 G80 G81 G82 G83 G84 G85 G86 G87 G88 G89'.split(' '),
  ['G17', 'G18', 'G19'],
  ['G90', 'G91'],
  ['G93', 'G94'],
  ['G20', 'G21'],
  ['G40', 'G41', 'G42'],
  ['G43', 'G49'],
  ['G98', 'G99'],
  ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3'],
  ['G61', 'G61.1', 'G64'],
  ['M0', 'M1', 'M2', 'M30', 'M60'],
  ['M6'],
  ['M3', 'M4', 'M5'],
  ['M7', 'M8', 'M9'],
  ['M48', 'M49'],
];

const find = (name: string, dialect: 'rs274ngc' | 'macro' = 'rs274ngc') =>
  codeOf(name[0] as 'G' | 'M', Number(name.slice(1)), dialect);

describe('modal groups', () => {
  it('holds every code of NISTIR 6556, table 4, in its group and in no other', () => {
    const groups = tableFour.map((codes) => new Set(codes.map((code) => find(code)?.group)));
    for (const group of groups) expect(group.size).toBe(1);
    const names = groups.map((group) => [...group][0]);
    expect(names).not.toContain(undefined);
    expect(names).not.toContain('');
    expect(new Set(names).size).toBe(tableFour.length);
  });

  it.each([
    ['G0', 'G1', 'rs274ngc', true],
    ['G17', 'G18', 'rs274ngc', true],
    ['M3', 'M4', 'rs274ngc', true],
    ['G0', 'G80', 'rs274ngc', true],
    ['G0', 'G80', 'macro', false],
    ['G81', 'G80', 'macro', true],
    ['G90', 'G91', 'macro', true],
    ['G53', 'G28', 'macro', false],
    ['G53', 'G28', 'rs274ngc', true],
    ['M3', 'M8', 'rs274ngc', false],
    ['G17', 'G90', 'rs274ngc', false],
    ['M100', 'M101', 'rs274ngc', false],
    ['G54', 'G54.1', 'macro', true],
  ] as const)('%s with %s in %s: conflict %s', (a, b, dialect, expected) => {
    const [first, second] = [find(a, dialect), find(b, dialect)];
    if (first === null || second === null) throw new Error('unknown code');
    expect(conflicting(first, second, dialect)).toBe(expected);
    expect(conflicting(second, first, dialect)).toBe(expected);
  });
});

describe('codes of a dialect', () => {
  it.each([
    ['G38.2', 'rs274ngc', true],
    ['G38.6', 'rs274ngc', false],
    ['G31', 'rs274ngc', false],
    ['G31', 'macro', true],
    ['G38.2', 'macro', false],
    ['G999', 'rs274ngc', false],
    ['M150', 'rs274ngc', true],
    ['M200', 'rs274ngc', false],
    ['M428', 'macro', true],
    ['G187', 'macro', true],
    ['G21.5', 'macro', false],
  ] as const)('%s in %s: known %s', (code, dialect, known) => {
    expect(find(code, dialect) !== null).toBe(known);
  });

  it('reads tenths within rounding, and no finer', () => {
    expect(codeName('G', 38.2 + 1e-9)).toBe('G38.2');
    expect(codeName('G', 38.25)).toBeNull();
    expect(codeName('G', -1)).toBeNull();
    expect(codeName('M', Number.NaN)).toBeNull();
  });

  it('describes each code once, with a title and a help sentence', () => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      const codes = codesOf(dialect);
      expect(new Set(codes.map((code) => code.code)).size).toBe(codes.length);
      for (const code of codes) {
        expect(code.title).toMatch(/\S/);
        expect(code.help).toMatch(/\.$/);
        expect(codeOf(code.code[0] as 'G' | 'M', Number(code.code.slice(1)), dialect)).toBe(code);
      }
    }
  });
});
