import { describe, expect, test } from 'vitest';
import { enterModalCall, leaveModalCall } from '../../server/program/callModal.ts';
import { onlyCode } from '../../server/program/modes.ts';
import { join, setParameter } from '../../server/program/state.ts';
import type { Value } from '../../server/program/value.ts';
import { runLines } from './runLines.ts';

/** All of it: common practice, no source. */
describe('calls after each motion', () => {
  const dueAfter = (block: string, before = 'G21 G90 G94 G0\nG66 P9001 A1.') => {
    const { modal } = runLines(`${before}\n${block}`, 'macro').state;
    return modal?.due ?? 'none';
  };

  test.each([
    ['G0 X5.', 'yes'],
    ['Y5.', 'yes'],
    ['G1 Z1. F50', 'yes'],
    ['G31 Z-5. F50', 'yes'],
    ['G53 G0 Z0', 'yes'],
    ['G28 Z5.', 'yes'],
    ['G81 X5. Y5. Z-3. R2. F50', 'yes'],
    ['/X5.', 'yes'],
    ['G90', 'no'],
    ['M3 S500', 'no'],
    ['G4 X1.', 'no'],
    ['G92 X1.', 'no'],
    ['G52 X1.', 'no'],
    ['G10 L2 P1 X1.', 'no'],
    ['#100=5.', 'no'],
    ['X#0', 'no'],
    ['G65 P9002 X5.', 'no'],
    ['G67', 'none'],
    ['M30', 'no'],
  ])('%s: %s', (block, due) => {
    expect(dueAfter(block)).toBe(due);
  });

  test('the block of the G66 moves nothing and calls nothing', () => {
    const { state, at } = runLines('G21 G90\nG0 X1.\nG66 P9001 X50. L3', 'macro');
    expect([state.modal?.due, ...at(0)]).toEqual(['no', 1]);
    expect(state.modal?.calls.map(({ code, callee, repeats }) => [code, callee, repeats])).toEqual([
      ['G66', '9001', 3],
    ]);
  });

  test('the macro keeps its locals from call to call, the caller its own', () => {
    const { state } = runLines('#1=7.\n#30=8.\nG66 P9001 A1. Z-5.\nG0 X1.', 'macro');
    const caller = enterModalCall(state);
    if (!caller) throw new Error('no call');
    expect(Object.fromEntries(state.locals)).toEqual({ 1: 1, 26: -5 });
    expect(state.modal).toBe(null);
    setParameter(state, 'locals', '30', 4);
    leaveModalCall(state, caller);
    expect(Object.fromEntries(state.locals)).toEqual({ 1: 7, 30: 8 });
    enterModalCall(state);
    expect(Object.fromEntries(state.locals)).toEqual({ 1: 1, 26: -5, 30: 4 });
  });

  test('of two the later is called, and in its macro the earlier; each G67 ends one', () => {
    const { state } = runLines('G66 P1\nG66 P2\nG0 X1.', 'macro');
    const called = () => state.modal?.calls.at(-1)?.callee ?? null;
    expect(called()).toBe('2');
    const outer = enterModalCall(state);
    expect(called()).toBe('1');
    const inner = enterModalCall(state);
    expect([called(), inner === null]).toEqual([null, false]);
    if (inner) leaveModalCall(state, inner);
    if (outer) leaveModalCall(state, outer);
    expect(called()).toBe('2');
    runLines('G67', 'macro', state);
    expect([called(), onlyCode('macroMode', state.modes.macroMode)]).toEqual(['1', 'G66']);
    runLines('G67\nG67', 'macro', state);
    expect([called(), onlyCode('macroMode', state.modes.macroMode)]).toEqual([null, 'G67']);
  });

  test('under G66.1 the words of a block are arguments and do nothing else', () => {
    const ran = runLines('G21 G90 G0 X1.\nG66.1 P9001\nX5. A2. F100', 'macro');
    const filled = (): Record<string, Value> => Object.fromEntries(ran.state.modal?.calls[0]?.locals ?? []);
    expect([...ran.at(0), ran.state.modal?.due, filled()]).toEqual([1, 'yes', { 24: 5, 1: 2, 9: 100 }]);
    runLines('#100=3.', 'macro', ran.state);
    expect(ran.state.globals.get('100')).toBe(3);
    runLines('G67\nX5.', 'macro', ran.state);
    expect([...ran.at(0), ran.state.modal]).toEqual([5, null]);
  });

  test('a number that is not known, and paths that differ', () => {
    const here = runLines('G66 P#900\nG0 X1.', 'macro').state;
    expect(here.modal?.calls[0]?.callee).toBe('0');
    const without = runLines('G0 X1.', 'macro').state;
    const met = join(runLines('G66 P5 A1.\nG0 X1.', 'macro').state, without, 'n');
    expect([met.modal?.certain, met.modal?.due]).toEqual([false, 'maybe']);
    const both = join(runLines('G66 P5 A1.', 'macro').state, runLines('G66 P6 A1.', 'macro').state, 'n');
    expect([both.modal?.certain, both.modal?.calls[0]?.callee]).toEqual([true, null]);
  });

  test('the other dialect has no such code', () => {
    expect(runLines('g66 p1\ng0 x1').state.modal).toBe(null);
  });
});
