import { describe, expect, test } from 'vitest';
import type { FaultName } from '../../server/rehearsal/faults.ts';
import { faultNames } from '../../server/rehearsal/faults.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { outcomesOf, plate } from './rehearsed.ts';

const head = 'G21 G90 G94 G17 G40\n';
const write = 'G10 L20 P1 Z[#<_z> - #5063]\nG0 Z20\nM2';
const careful = `${head}G38.3 Z-5 F60\no1 if [#5070 EQ 0]\n(MSG, no top)\nM2\no1 endif\n${write}`;
const careless = `${head}G38.3 Z-5 F60\n${write}`;
const shallow = `${head}G38.3 Z-0.2 F60\n${write}`;
const untilFound = `${head}#5070 = 0\no1 while [#5070 EQ 0]\nG0 Z20\nG38.3 Z-5 F60\no1 endwhile\n${write}`;
const silent = `${head}G38.3 Z-5 F60\no1 if [#5070 NE 0]\nG10 L20 P1 Z[#<_z> - #5063]\no1 endif\nG0 Z20\nM2`;
const blind = `${head}G38.3 Z-5 F60\nG0 Z20\nG10 L2 P1 Z0\nM2`;
const low = `${head}G0 Z0.6\nG38.3 Z-5 F60\n${write}`;
const high = `${head}G38.2 Z-0.5 F60\n${write}`;
const again = `${head}G38.3 Z-5 F60\n#1 = #5063\nG0 Z[#1 + 1]\nG38.3 Z[#1 - 0.5] F60\n${write}`;
const goesOn = `${head}G38.3 Z-5 F60\nG0 Z[#5063 - 12]\nM2`;
const turnsAway = `${head}G38.2 Z-5 F60\n#1 = #5063\nG38.4 Z10\nG0 Z20\nG10 L2 P1 Z#1\nM2`;
const fast = `${head}G38.3 Z-5 F1000\n${write}`;
const relative = `${head}G91\nG0 Z-19.5\nG38.3 Z-5 F60\nG90\n${write}`;
const skip = 'G21 G90 G94\nG31 Z-5. F60.\n#1=#5063\nG0 Z5.\nG31 Z-5. F60.\n#5223=#5063\nG0 Z20.\nM30';

/** A bore of 40 mm, centred at 0 0, and one wall beside it. */
const across = (axis: string, n: number) =>
  `G38.2 ${axis}30 F60\n#1 = #506${n}\nG0 ${axis}0\nG38.2 ${axis}-30 F60\n#2 = #506${n}\nG0 ${axis}[[#1 + #2] / 2]\n`;
const centre = `${head}${across('X', 1)}${across('Y', 2)}G10 L20 P1 X0 Y0\nG0 Z20\nM2`;
const oneWall = `${head}G0 Y15\nG38.2 X60 F60\n#1 = [#5061 + 2]\nG0 X0\nG10 L2 P1 X#1 Y0\nM2`;
const nearWall = `${head}G0 Y15\nG0 X17.7\nG0 X0\nG38.2 X60 F60\nG0 X0\nM2`;
const close = { 'G54.x': { value: 0, tolerance: 0.02 }, 'G54.y': { value: 0, tolerance: 0.02 } };
const bored = {
  start: [0, 0, -10],
  part: [
    { add: 'block', min: [-60, -50, -30], max: [60, 50, 0] },
    { cut: 'bore', center: [0, 0], diameter: 40, top: 0, depth: 30 },
  ],
  uncertainty: { x: 0, y: 0, z: 0, degrees: 3 },
  expect: close,
};
const slotted = {
  ...bored,
  part: [
    { add: 'block', min: [-60, -50, -30], max: [60, 50, 0] },
    { cut: 'pocket', min: [-20, -40, -30], max: [20, 40, 0] },
  ],
  expect: { 'G54.x': { value: 20, tolerance: 0.02 }, 'G54.y': { value: 0, tolerance: 60 } },
};
const top = {
  ...plate,
  expect: { 'G54.z': { value: 0, tolerance: 0.01 } },
  uncertainty: { x: 0, y: 0, z: 1, degrees: 0 },
  wrongToolLength: 1,
};

type Row = readonly [
  fault: FaultName,
  form: string,
  program: string,
  setup: object,
  outcomes: readonly string[],
  dialect?: DialectName,
];

const table: readonly Row[] = [
  ['part-absent', 'a write all the same', careless, top, ['wrong-datum']],
  ['part-absent', 'a search without an end', untilFound, top, ['endless']],
  ['part-absent', 'a message', careful, top, ['message-stop']],
  ['part-absent', 'silence, and nothing written', silent, top, ['completed']],
  ['part-shifted', 'a rapid move to where the part now stands', low, top, ['collision', 'datum-right']],
  ['part-shifted', 'a datum that is not measured', blind, top, ['wrong-datum', 'wrong-datum']],
  ['part-shifted', 'out of reach, with an alarm', high, top, ['datum-right', 'message-stop']],
  ['part-shifted', 'found', careful, top, ['datum-right', 'datum-right']],
  [
    'part-turned',
    'a rapid move near a wall',
    nearWall,
    { ...slotted, expect: {} },
    ['collision', 'completed'],
  ],
  ['part-turned', 'one touch of a wall', oneWall, slotted, ['wrong-datum', 'wrong-datum']],
  ['part-turned', 'the centre of a bore', centre, bored, ['datum-right', 'datum-right']],
  [
    'part-turned',
    'a height alone',
    careful,
    { ...top, uncertainty: { degrees: 3 } },
    ['completed', 'completed'],
  ],
  ['probe-dead', 'pushed past its overtravel', careful, top, ['collision']],
  ['probe-dead', 'the end of a short travel, written', shallow, top, ['wrong-datum']],
  ['probe-dead', 'the end of a short travel, with an alarm', high, top, ['contact-stop']],
  ['probe-dead', 'nothing in its way', `${head}G38.3 Z5 F60\nM2`, { ...top, expect: {} }, ['completed']],
  ['probe-tripped', 'an alarm', careful, top, ['message-stop']],
  ['probe-tripped', 'a skip move', skip, top, ['datum-right', 'wrong-datum'], 'macro'],
  ['false-trip', 'on as if it stood on the part', goesOn, { ...top, expect: {} }, ['collision']],
  ['false-trip', 'one touch', careless, top, ['wrong-datum']],
  ['false-trip', 'two touches, of which the last one counts', again, top, ['wrong-datum', 'wrong-datum']],
  ['false-trip', 'the way back is an alarm', turnsAway, top, ['message-stop', 'datum-right']],
  ['probe-stuck', 'an alarm', again, top, ['message-stop']],
  ['probe-stuck', 'a skip move', skip, top, ['wrong-datum'], 'macro'],
  ['start-shifted', 'a way that counts from the start', relative, top, ['datum-right', 'collision']],
  ['start-shifted', 'absolute ways', careful, top, ['datum-right', 'datum-right']],
  ['feed-doubled', 'too fast for the overtravel', fast, top, ['collision']],
  ['feed-doubled', 'slow enough', careful, top, ['datum-right']],
  ['wrong-tool', 'longer and shorter', careful, top, ['wrong-datum', 'wrong-datum']],
  ['wrong-tool', 'a rapid move close by', low, top, ['collision', 'wrong-datum']],
  ['wrong-tool', 'out of reach', high, top, ['wrong-datum', 'message-stop']],
  [
    'wrong-tool',
    'sideways it does not count',
    centre,
    { ...bored, wrongToolLength: 2 },
    ['datum-right', 'datum-right'],
  ],
];

describe('each fault, and what it can come to', () => {
  for (const [fault, form, program, setup, outcomes, dialect = 'rs274ngc'] of table)
    test(`${fault}: ${form}`, () => {
      expect(outcomesOf(fault, program, setup, { dialect })).toEqual(outcomes);
    });

  test('none is left out', () => {
    expect(new Set(table.map(([fault]) => fault))).toEqual(new Set(faultNames));
  });
});
