import { describe, expect, test } from 'vitest';
import { onlyCode } from '../../server/program/modes.ts';
import { isNumber } from '../../server/program/value.ts';
import { runLines } from './runLines.ts';

const head = 'G21 G90 G94 G17 G0 X1. Y2. Z3.\n';
/** Which of X, Y and Z are known after a block of the macro family, and the legs of its last motion. */
function after(block: string) {
  const { state, world } = runLines(head + block, 'macro');
  const known = ['X', 'Y', 'Z'].filter((_, i) => isNumber(state.position[i] ?? Number.NaN)).join('');
  return { state, world, known, legs: world.legs.slice(1) };
}

/** All of it: common practice, no source. */
describe('what the text does not tell', () => {
  test.each([
    ['G12 I10. F200', ''],
    ['G13 I10. Z-2. F200', 'XY'],
    ['G28.2 Z5.', 'XY'],
    ['G29 X9.', 'YZ'],
    ['G30.1 Z5.', 'XY'],
    ['G30.2 Z5.', 'XY'],
    ['G31.1 Z-5. F50', 'XY'],
    ['G31.8 X5. F50', 'YZ'],
    ['G32 Z-5. F1.', 'XY'],
    ['G37 Z-50. H3', 'XY'],
    ['G45 X9. D1', 'YZ'],
    ['G48 Y9. D1', 'XZ'],
    ['G70 I20. J0 L6', ''],
    ['G72 I20. J0 L6', ''],
    ['G72.1 P2 L3 X0 Y0 R60.', 'Z'],
    ['G77 Z-5.', 'XY'],
  ])('%s leaves known: %s', (block, known) => {
    const ran = after(block);
    expect([ran.known, ran.legs]).toEqual([known, [null]]);
  });

  test.each(['G7.1 C20.', 'G12.1', 'G54.2 P1', 'G54.4 P1', 'G68.2 X0 Y0 Z0 I0 J30. K0'])(
    '%s: where words lead from then on',
    (block) => expect(after(`${block}\nG1 X5. Y6. Z7. F100`).known).toBe(''),
  );

  test.each([
    ['G17.1', 'plane'],
    ['G20.1', 'units'],
    ['G70', 'units'],
    ['G71', 'units'],
    ['G93.1', 'feedMode'],
  ] as const)('%s: its mode', (code, group) => {
    expect(onlyCode(group, after(code).state.modes[group])).toBe(null);
  });

  test('what another signal ends, or a measuring cycle, is latched', () => {
    const { state } = after('G37 Z-50. H3');
    expect(
      [state.success, state.latched[2], state.rig.toolOffset[2]].every((v) => typeof v === 'object'),
    ).toBe(true);
  });
});

describe('words that move nothing', () => {
  test.each(['G22 X100. Y100. Z0 I-100. J-100. K-100.', 'G10.6 Z5.', 'G4 X5.', 'G4 U5.'])('%s', (block) => {
    const { state, legs } = after(block);
    expect([state.position.slice(0, 3), state.position[6], legs]).toEqual([[1, 2, 3], 0, []]);
  });

  test.each(['G5.1 Q1', 'G5 P10000', 'G8 P1', 'G61', 'G64', 'M97'])(
    '%s leaves the motion as it was',
    (block) => {
      const { state } = after(block);
      expect([onlyCode('motion', state.modes.motion), state.position.slice(0, 3)]).toEqual(['G0', [1, 2, 3]]);
    },
  );
});

describe('machine coordinates', () => {
  const faults = (block: string) => runLines(`g21 g90 g94 g0 x1 f50\n${block}`).world.faults;

  test('go with G0 and G1 alone (NISTIR 6556, 3.5.12)', () => {
    expect(faults('g53 g38.2 z-10')).toHaveLength(1);
    expect(faults('g38.2 z-10\ng53 z0')).toHaveLength(1);
    expect(faults('g2 x3 y0 i1 j0\ng53 x0 y0')).toHaveLength(1);
    expect(faults('g53 g0 z0')).toEqual([]);
    expect(faults('g1 z0\ng53 x5')).toEqual([]);
  });

  test('a touch in them ends nobody knows where', () => {
    const { world } = runLines('g21 g90 g94 f50\ng53 g38.2 z-10');
    expect(world.touches[0]?.to.map(isNumber).slice(0, 3)).toEqual([true, true, false]);
  });

  test('at feed by G53.2 of the macro family (common practice, no source)', () => {
    const { world, state } = runLines('G21 G90 G94 F100\nG55\nG53.2 X7.', 'macro');
    expect([state.position[0], world.legs.at(-1)?.[0]?.kind]).toEqual([7, 'feed']);
  });
});
