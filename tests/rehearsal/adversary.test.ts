import { describe, expect, test } from 'vitest';
import { rehearsalJson } from '../../server/report/rehearsalJson.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { idealProbe, plate, rehearsed } from './rehearsed.ts';

const head = 'G21 G90 G94 G17 G40\n';
const write = 'G10 L2 P1 Z#5063\nG0 Z20\nM2';
const expectTop = { 'G54.z': { value: 0, tolerance: 0.01 } };
const shaky = { x: 1, y: 1, z: 1, degrees: 1 };
const top = { ...plate, expect: expectTop, uncertainty: shaky, wrongToolLength: 1 };
const careless = `${head}G38.3 Z-5 F60\n${write}`;
const solids = (...part: object[]) => ({ ...top, part });
const block = (min: number[], max: number[]) => ({ add: 'block', min, max });

type Attempt = readonly [
  what: string,
  program: string,
  setup: object,
  outcome: string,
  words: string,
  dialect?: DialectName,
];

/** None of these is right, and none may pass, hang or break the rehearsal. */
const programs: readonly Attempt[] = [
  ['an empty program', '', top, 'completed', 'without writing G54.z'],
  ['an empty program, of which nothing is expected', '', plate, 'completed', 'ends without a touch'],
  ['comments alone', '(nothing)\n; at all\n', top, 'completed', 'without writing G54.z'],
  ['a percent line alone', '%\n', top, 'completed', 'without writing G54.z'],
  ['an end alone', 'M2\n', top, 'completed', 'without writing G54.z'],
  ['a number alone', '%\nO1000\n%\n', top, 'completed', 'without writing G54.z', 'macro'],
  ['an end before the touch', `M2\n${careless}`, top, 'completed', 'without writing G54.z'],
  ['subroutines alone', 'o<a> sub\nG38.2 Z-5 F60\no<a> endsub\n', top, 'message-stop', 'no main program'],
  ['a position that is no number', `${head}G0 X[0 / 0]\nM2`, top, 'message-stop', 'division by zero'],
  ['the root of less than nothing', `${head}G0 X[SQRT[-1]]\nM2`, top, 'message-stop', 'square root'],
  ['a number too large', `${head}#1 = [10 ** 400]\nG0 X#1\nM2`, top, 'message-stop', 'too large'],
  ['a way to the stars', `${head}G0 X${'9'.repeat(200)}\nM2`, top, 'endless', 'more than ten hours'],
  [
    'a way to the centre of the earth',
    `${head}G0 Z-${'9'.repeat(200)}\nM2`,
    top,
    'collision',
    'meets the part',
  ],
  ['a touch to the stars', `${head}G38.3 X${'9'.repeat(300)} F60\n${write}`, top, 'endless', 'ten hours'],
  ['a touch at a feed of zero', `${head}G38.3 Z-5 F0\n${write}`, top, 'message-stop', 'feed of zero'],
  ['a touch at a feed below zero', `${head}G38.3 Z-5 F-60\n${write}`, top, 'message-stop', 'feed of zero'],
  ['a touch without a feed', `${head}G38.3 Z-5\n${write}`, top, 'message-stop', 'feed'],
  ['a touch without a way', `${head}G38.3 Z20 F60\n${write}`, top, 'message-stop', '0.254 mm'],
  [
    'a touch of an axis that there is not',
    `${head}G38.3 A90 F60\n${write}`,
    top,
    'message-stop',
    'X, Y and Z',
  ],
  ['a touch away from nothing', `${head}G38.4 Z30 F60\n${write}`, top, 'message-stop', 'not tripped'],
  [
    'a touch with the spindle on',
    `${head}M3 S1000\nG38.3 Z-5 F60\n${write}`,
    top,
    'message-stop',
    'spindle turns',
  ],
  ['millimetres taken for inches', careless.replace('G21', 'G20'), top, 'collision', 'overtravel'],
  ['a loop that jumps to itself', `${head}N10 GOTO 10\nM30`, top, 'endless', 'still running', 'macro'],
  [
    'a loop that waits',
    `${head}WHILE [1 EQ 1] DO1\nG4 P60000\nEND1\nM30`,
    top,
    'endless',
    'ten hours',
    'macro',
  ],
  [
    'ten thousand million repeats',
    `${head}o1 repeat [10000000000]\n#1 = 1\no1 endrepeat\nM2`,
    top,
    'endless',
    'blocks',
  ],
  [
    'a program without a number that calls one behind its end',
    `${head}M98 P7 L3\nG0 Z[20 + #100]\nM30\nO7\n#100 = #100 + 1\nM99`,
    top,
    'completed',
    'without writing G54.z',
    'macro',
  ],
  ['a program that calls itself', 'O7\nM98 P7\nM30', top, 'endless', 'calls more than', 'macro'],
  [
    'two that call each other',
    'o<a> sub\no<b> call\no<a> endsub\no<b> sub\no<a> call\no<b> endsub\no<a> call\nM2',
    top,
    'endless',
    'calls more than',
  ],
  ['a parameter far out', `${head}#1 = #[10 ** 300]\nM2`, top, 'message-stop', 'parameter number'],
  ['a jump to nowhere', `${head}#1 = 99\nGOTO #1\nM30`, top, 'message-stop', 'N99', 'macro'],
  ['an arc that is none', `${head}G2 X10 Y10 R1 F60\nM2`, top, 'message-stop', 'arc'],
  ['a drilling cycle with the probe', `${head}G81 X0 Y0 Z-5 R5 F60\nM2`, top, 'collision', 'meets the part'],
  [
    'a datum from a touch that met nothing',
    `${head}G38.3 Z10 F60\n${write}`,
    top,
    'wrong-datum',
    '10 mm off',
  ],
];

const setups: readonly Attempt[] = [
  [
    'no part, and the end of the travel expected',
    careless,
    { ...solids(), expect: { 'G54.z': { value: -5, tolerance: 0.01 } } },
    'datum-right',
    'expectation',
  ],
  [
    'no part, and nothing expected',
    careless,
    { ...solids(), expect: {} },
    'completed',
    'no touch met anything',
  ],
  [
    'a part that is cut away',
    careless,
    solids(block([-50, -50, -30], [50, 50, 0]), { cut: 'pocket', min: [-60, -60, -40], max: [60, 60, 10] }),
    'wrong-datum',
    '5 mm off',
  ],
  [
    'cuts alone',
    careless,
    solids({ cut: 'bore', center: [0, 0], diameter: 9, top: 0, depth: 9 }),
    'wrong-datum',
    '5 mm off',
  ],
  [
    'a part thinner than a hair',
    `${head}G0 Z-5\nM2`,
    solids(block([-50, -50, -1e-9], [50, 50, 0])),
    'collision',
    'meets the part',
  ],
  [
    'a part as large as the world',
    careless,
    solids(block([-1e6, -1e6, -1e6], [1e6, 1e6, 1e6])),
    'collision',
    'stands in the part',
  ],
  ['a start in the part', careless, { ...top, start: [0, 0, -3] }, 'collision', 'stands in the part'],
  [
    'a start with the stem in the part',
    careless,
    {
      ...solids(block([5, -50, 30], [50, 50, 99])),
      start: [5.5, 0, 90],
      tool: 1,
      tools: { '1': { length: 80 } },
    },
    'collision',
    'stands in the part',
  ],
  [
    'a part in inches that was meant in millimetres',
    `${head}G91\nG38.3 Z-25 F60\nG90\n${write}`,
    { ...top, units: 'inch' },
    'wrong-datum',
    'inch off',
  ],
  ['a start a thousand metres up', careless, { ...top, start: [0, 0, 1e6] }, 'endless', 'ten hours'],
  [
    'a tool shorter than its ball',
    careless,
    { ...top, tool: 1, tools: { '1': { length: 0 } }, expect: { 'G54.x': { value: 0, tolerance: 1 } } },
    'completed',
    'without writing G54.x',
  ],
  [
    'a parameter that nothing sets is expected',
    careless,
    { ...top, expect: { '#<nowhere>': { value: 0, tolerance: 1 } } },
    'completed',
    'without writing #<nowhere>',
  ],
  [
    'a datum that was right before and is not written',
    `${head}G38.3 Z-5 F60\nG0 Z20\nM2`,
    top,
    'completed',
    'without writing G54.z',
  ],
  ['a datum that is written, and no touch', `${head}G10 L2 P1 Z0\nM2`, top, 'datum-right', 'expectation'],
];

const attempts = [...programs, ...setups].map((attempt) => ({ what: attempt[0], attempt }));

describe.each(attempts)('$what', ({ attempt }) => {
  const [, program, setup, outcome, words, dialect = 'rs274ngc'] = attempt;
  test(`ends as ${outcome}, in words, and does not pass`, () => {
    const rehearsal = rehearsed(program, setup, { dialect });
    const { undisturbed, verdict } = rehearsal;
    expect(undisturbed.outcome.name, undisturbed.story).toBe(outcome);
    expect(undisturbed.story).toContain(words);
    expect(verdict).toBe('fail');
    const json = rehearsalJson(rehearsal, null, String);
    expect(JSON.parse(json)).toMatchObject({ verdict: 'fail', undisturbed: { outcome } });
    expect(json).not.toMatch(/NaN|Infinity|undefined/);
  });
});

test('a stem that goes through a thin wall on its way to a touch hits it, though it ends free behind it', () => {
  const wall = { add: 'block', min: [9, -50, 5], max: [10, 50, 60] };
  const far = { add: 'block', min: [60, -50, -90], max: [80, 50, -20] };
  const setup = { start: [0, 0, 0], tool: 1, tools: { '1': { length: 60 } }, part: [far, wall] };
  const program = `${head}G38.2 X90 F60\nG0 X50\nM2`;
  const low = { ...setup, part: [far, { ...wall, min: [9, -50, -40], max: [10, 50, -30] }] };
  const { record } = rehearsed(program, low, { options: { faults: [] } }).undisturbed;
  expect(record.collisions).toMatchObject([
    { with: 'stem', line: 1, point: [9, 0, -40].map((v) => expect.closeTo(v, 7)) },
  ]);
  expect(rehearsed(program, setup, { options: { faults: [] } }).undisturbed.outcome.name).toBe('completed');
});

test('a touch with a tool that is not the probe is not followed, and that is said', () => {
  const profile = { ...idealProbe, probe: { ...idealProbe.probe, tool: 9 } };
  const setup = { ...top, tool: 9, tools: { '9': { length: 0 }, '5': { length: 0 } } };
  const program = `${head}T5 M6\nG38.3 Z-5 F60\n${write}`;
  const { undisturbed, verdict } = rehearsed(program, setup, { profile, options: { faults: [] } });
  expect(undisturbed.outcome.name).toBe('message-stop');
  expect(undisturbed.story).toContain('a touch with tool 5, where the probe is tool 9');
  expect(verdict).toBe('fail');
});

describe('what was not tried is not taken for survived', () => {
  const careful = `${head}G38.3 Z-5 F60\no1 if [#5070 EQ 0]\n(MSG, none)\nM2\no1 endif\n${write}`;

  test('faults without a size in the setup', () => {
    const { cautions } = rehearsed(careful, { ...plate, expect: expectTop });
    expect(cautions.join('\n')).toMatch(
      /part-shifted, part-turned, start-shifted, wrong-tool: the setup or the program leaves no room/,
    );
  });

  test('a fault that is asked for and has no occasion', () => {
    const { faults, cautions } = rehearsed(careful, top, { options: { faults: ['probe-stuck'] } });
    expect(faults).toEqual([]);
    expect(cautions.join('\n')).toContain('probe-stuck: it makes no difference to this program');
  });
});
