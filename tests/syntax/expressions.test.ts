import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { faults, outline } from './outline.ts';

const value = (text: string, dialect: 'rs274ngc' | 'macro') => outline(`X${text}`, dialect).slice(2);

describe('precedence in rs274ngc: three groups, equal ones from the left (NISTIR 6556, 3.3.2.3)', () => {
  it.each([
    ['[2.0 / 3 * 1.5 - 5.5 / 11.0]', '(- (* (/ 2 3) 1.5) (/ 5.5 11))'],
    ['[ 1 + acos[0] - [#3 ** [4.0/2]]]', '(- (+ 1 (ACOS 0)) (** #3 (/ 4 2)))'],
    ['[2**3**2]', '(** (** 2 3) 2)'],
    ['[1 or 0 and 0]', '(AND (OR 1 0) 0)'],
    ['[5 xor 0 + 1]', '(+ (XOR 5 0) 1)'],
    ['[3-2-1]', '(- (- 3 2) 1)'],
    ['[1+2*3**2]', '(+ 1 (* 2 (** 3 2)))'],
    ['[7.5 mod 2]', '(MOD 7.5 2)'],
    ['[1 --3]', '(- 1 -3)'],
    ['[1 - - 3]', '(- 1 -3)'],
    ['[-#1**2]', '(** (- #1) 2)'],
  ])('%s', (text, expected) => {
    expect(value(text, 'rs274ngc')).toBe(expected);
    expect(faults(`X${text}`, 'rs274ngc')).toBe('');
  });
});

describe('comparisons in rs274ngc (common practice, no source)', () => {
  it.each([
    ['[#1+1 EQ 2]', '(EQ (+ #1 1) 2)'],
    ['[#5070 EQ 0 AND #1 GT 2]', '(AND (EQ #5070 0) (GT #1 2))'],
    ['[#1 LT 1 OR #2+1 GE 3]', '(OR (LT #1 1) (GE (+ #2 1) 3))'],
    ['[[1 or 0 and 0] NE 0]', '(NE (AND (OR 1 0) 0) 0)'],
    ['[#1eq0]', '(EQ #1 0)'],
    ['[#1 n e 0]', '(NE #1 0)'],
  ])('%s', (text, expected) => {
    expect(value(text, 'rs274ngc')).toBe(expected);
    expect(faults(`X${text}`, 'rs274ngc')).toBe('');
  });
});

describe('precedence in the macro dialect (common practice, no source)', () => {
  it.each([
    ['[1 OR 0 AND 0]', '(OR 1 (AND 0 0))'],
    ['[1+2 AND 3]', '(+ 1 (AND 2 3))'],
    ['[#1 XOR 1 EQ 2]', '(EQ (XOR #1 1) 2)'],
    ['[[#1EQ0]AND[#2EQ0]]', '(AND (EQ #1 0) (EQ #2 0))'],
    ['[#656NE50]', '(NE #656 50)'],
    ['[#1MOD2]', '(MOD #1 2)'],
    ['[#1-SIN[#2]*3]', '(- #1 (* (SIN #2) 3))'],
  ])('%s', (text, expected) => {
    expect(value(text, 'macro')).toBe(expected);
    expect(faults(`X${text}`, 'macro')).toBe('');
  });

  it('has no ** and says so', () => {
    expect(faults('X[2**3]', 'macro')).toBe('unexpected-character@3-5');
  });
});

describe('functions', () => {
  it.each([
    ['fix[2.8]', '(FIX 2.8)'],
    ['s i n [ 30 ]', '(SIN 30)'],
    ['atan[1.7321]/[1.0]', '(ATAN 1.7321 1)'],
    ['[atan[1]/[2]/3]', '(/ (ATAN 1 2) 3)'],
    ['sqrt[3**2 + 4**2]', '(SQRT (+ (** 3 2) (** 4 2)))'],
    ['exists[#<_x>]', '(EXISTS #<_x>)'],
    ['[abs[#5063-#3] LT 0.01]', '(LT (ABS (- #5063 #3)) 0.01)'],
  ])('%s in rs274ngc', (text, expected) => {
    expect(value(text, 'rs274ngc')).toBe(expected);
    expect(faults(`X${text}`, 'rs274ngc')).toBe('');
  });

  it.each([
    ['ATAN[#1]/[#2]', '(ATAN #1 #2)'],
    ['ATAN[#1,#2]', '(ATAN #1 #2)'],
    ['ATAN[#1]', '(ATAN #1)'],
    ['POW[2,3]', '(POW 2 3)'],
    ['BIN[#1]', '(BIN #1)'],
  ])('%s in the macro dialect', (text, expected) => {
    expect(value(text, 'macro')).toBe(expected);
    expect(faults(`X${text}`, 'macro')).toBe('');
  });

  it.each([
    ['X ATAN[1]', 'missing-operand@2-9'],
    ['X SIN 30', 'missing-operand@2-5'],
    ['X FOO[1]', 'unknown-function@2-5'],
    ['X[1 + FOO[2]]', 'unknown-function@6-9'],
    ['X BIN[1]', 'unknown-function@2-5'],
  ])('%s is a fault in rs274ngc', (line, found) => {
    expect(faults(line, 'rs274ngc')).toBe(found);
  });
});

describe('parameters', () => {
  it.each([
    ['#<_probe_diameter>', '#<_probe_diameter>'],
    ['#<Edge X.1>', '#<edgex.1>'],
    ['# 1 0', '#10'],
    ['#[#1+2]', '#[(+ #1 2)]'],
    ['#[5]', '#5'],
    ['###1', '#[#[#1]]'],
    ['#5.00005', '#5'],
  ])('%s', (text, expected) => {
    expect(value(text, 'rs274ngc')).toBe(expected);
    expect(faults(`X${text}`, 'rs274ngc')).toBe('');
  });

  it('binds # tightest (NISTIR 6556, 3.3.2.2)', () => {
    expect(value('[#1+2]', 'rs274ngc')).toBe('(+ #1 2)');
  });

  it.each([
    ['X#', 'missing-value@1-2'],
    ['X#<name', 'unclosed-name@1-7'],
    ['X#<>', 'missing-value@1-4'],
    ['X#2.5', 'bad-number@1-5'],
    ['X#-1', 'bad-number@1-4'],
    ['X#0', 'bad-number@1-3'],
  ])('%s is a fault in rs274ngc', (line, found) => {
    expect(faults(line, 'rs274ngc')).toBe(found);
  });

  it('has #0, and no names, in the macro dialect', () => {
    expect(faults('X#0', 'macro')).toBe('');
    expect(faults('X#<a>', 'macro')).toBe('unexpected-character@1-5');
  });
});

describe('brackets', () => {
  it.each([
    ['X[1+2', 'unclosed-bracket@1-5'],
    ['X[1+2 Y5', 'unclosed-bracket@1-5'],
    ['X[1+', 'unclosed-bracket@1-4'],
    ['X[1 + ; sum', 'unclosed-bracket@1-6'],
    ['X[', 'unclosed-bracket@1-2'],
    ['X[]', 'missing-operand@1-2'],
    ['X[1+]', 'missing-operand@3-4'],
    ['X[*2]', 'missing-operand@1-2'],
    ['X[1 ? 2] Y3', 'unexpected-character@4-7'],
    ['X[1e3]', 'unexpected-character@3-5'],
    ['X[1 (c) + 2]', 'unexpected-character@4-11'],
    ['X[#1 Y[2]', 'unclosed-bracket@1-4'],
  ])('%s', (line, found) => {
    expect(faults(line, 'rs274ngc')).toBe(found);
  });

  it('span takes the brackets in', () => {
    const [word] = parseBlock('X [ #1 + 2 ] Y1', dialects.rs274ngc).items;
    expect(word).toMatchObject({ start: 0, end: 12, value: { start: 2, end: 12 } });
  });

  it('nests 200 deep, and gives one fault where it gets deeper', () => {
    const nested = (depth: number) => `X${'['.repeat(depth)}1${']'.repeat(depth)}`;
    const { macro } = dialects;
    expect(parseBlock(nested(200), macro).faults).toEqual([]);
    expect(parseBlock(nested(201), macro).faults).toEqual([
      { code: 'nested-too-deep', start: 201, end: 404 },
    ]);
  });
});
