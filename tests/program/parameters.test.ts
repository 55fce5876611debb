import { describe, expect, it } from 'vitest';
import type { State } from '../../server/program/state.ts';
import { empty, type Value } from '../../server/program/value.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { NumericWorld, numericStart } from './numericWorld.ts';
import { runLines } from './runLines.ts';

/** Common practice, no source, but for #5061 to #5066 and #5220 (NISTIR 6556, table 2). */
describe('system parameters on numbers', () => {
  const read = (text: string, value: string, dialect: DialectName = 'macro', state?: State) =>
    runLines(text, dialect, state ?? numericStart({ X: 1, Y: 2, Z: 3 })).read(value);

  it.each([
    ['', '#5001', 1],
    ['', '#5042', 2],
    ['', '#5023', 3],
    ['G91 G0 X4.', '#5041', 5],
    ['G91', '#4003', 91],
    ['G20', '#4006', 20],
    ['G18', '#4002', 18],
    ['G1 F100', '#4001', 1],
    ['F100', '#4109', 100],
    ['G20 F10.', '#4109', 10],
    ['S500', '#4119', 500],
    ['T7', '#4120', 7],
    ['G54.1 P3', '#4130', 3],
    ['G55', '#4014', 55],
    ['G99', '#4010', 99],
    ['G81 X0 Z-1. R1.', '#4009', 81],
    ['G0 X0', '#4009', 80],
    ['G68 X0 Y0 R1.', '#4016', 68],
    ['#5221=4.', '#5221', 4],
    ['#2001=5.', '#10001', 5],
    ['#2201=5.', '#11001', 5],
  ] as const)('macro: after %s, %s reads %d', (text, value, expected) => {
    expect(read(text, value)).toBe(expected);
  });

  it.each([
    ['', '#5420', 1],
    ['', '#<_y>', 2],
    ['g55', '#5220', 2],
    ['g59.3', '#<_coord_system>', 593],
    ['g20', '#<_imperial>', 1],
    ['g21', '#<_imperial>', 0],
    ['g91', '#<_incremental>', 1],
    ['m3 s100', '#<_spindle_on>', 1],
    ['s100', '#<_rpm>', 100],
    ['t4 m6', '#5400', 4],
    ['m61 q9', '#<_current_tool>', 9],
    ['t4', '#<_selected_tool>', 4],
    ['g20 f10', '#<_feed>', 10],
    ['g92 x0', '#5211', 1],
  ] as const)('rs274ngc: after %s, %s reads %d', (text, value, expected) => {
    expect(read(text, value, 'rs274ngc')).toBe(expected);
  });

  it('latch a touch in the unit in force, and whether it met something', () => {
    const world = new NumericWorld('mm', (request) =>
      request.to.map((v, i) => (i === 2 ? -2.54 : Number(v))),
    );
    const ran = runLines('g21 g38.3 z-5 f50\ng20', 'rs274ngc', numericStart(), world);
    expect(Number(ran.read('#5063'))).toBeCloseTo(-0.1, 9);
    expect(ran.read('#5070')).toBe(1);
  });
});

describe('empty parameters of the macro family (common practice, no source)', () => {
  const value = (expression: string): Value => {
    const state = numericStart();
    state.unsetLocal = empty;
    return runLines('', 'macro', state).read(expression);
  };

  it.each([
    ['[#0EQ#1]', 1],
    ['[#0EQ0]', 0],
    ['[#1NE0]', 1],
    ['[#0NE#0]', 0],
    ['[#0GE0]', 1],
    ['[#0LT1]', 1],
    ['[#0+5]', 5],
    ['[#0*5]', 0],
    ['ABS[#0]', 0],
  ] as const)('%s is %d', (expression, expected) => {
    expect(value(expression)).toBe(expected);
  });

  it('leave out the word that has one', () => {
    expect(runLines('G0 X#0 Y5.', 'macro', numericStart({ X: 3 })).at(0, 1)).toEqual([3, 5]);
    expect(runLines('G0 X-#0 Y5.', 'macro', numericStart({ X: 3 })).at(0, 1)).toEqual([3, 5]);
  });
});
