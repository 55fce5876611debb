import { describe, expect, test } from 'vitest';
import { outcome, outcomesOf, plate, rehearsed } from './rehearsed.ts';

const head = 'G21 G90 G94 G17 G40\n';
/** One face in Z, tested and written; common practice, no source. */
const careful = `${head}
G38.3 Z-5 F60
o1 if [#5070 EQ 0]
  (MSG, no top found)
  M2
o1 endif
G10 L20 P1 Z[#<_z> - #5063]
G0 Z20
M2`;
const careless = `${head}G38.3 Z-5 F60\nG10 L2 P1 Z#5063\nG0 Z20\nM2`;
const expectTop = { 'G54.z': { value: 0, tolerance: 0.01 } };
const top = {
  ...plate,
  expect: expectTop,
  uncertainty: { x: 1, y: 1, z: 1, degrees: 2 },
  wrongToolLength: 3,
};

describe('outcomes of the undisturbed run', () => {
  test('every expectation met: datum-right, and the verdict is that of the faults', () => {
    const { undisturbed, verdict } = rehearsed(careful, top);
    expect(undisturbed.outcome.name).toBe('datum-right');
    expect(undisturbed.outcome.errors.get('G54.z')).toBeCloseTo(0, 9);
    expect(verdict).toBe('fail');
  });

  test('a false trip is answered by a second touch: pass', () => {
    const twice = `${head}
G38.3 Z-5 F60
o1 if [#5070 EQ 0]
  (MSG, no top found)
  M2
o1 endif
#1 = #5063
G1 Z[#1 + 0.5] F60
G38.3 Z[#1 - 1] F60
o2 if [[#5070 EQ 0] OR [ABS[#5063 - #1] GT 0.02]]
  (MSG, the two touches do not agree)
  M2
o2 endif
G10 L20 P1 Z[#<_z> - #5063]
G0 Z20
M2`;
    const { faults, verdict } = rehearsed(twice, top);
    const bad = faults.filter(({ outcome: { name } }) => name === 'collision');
    expect(bad.map(({ fault }) => fault.name)).toEqual(['probe-dead']);
    expect(verdict).toBe('pass');
  });

  test('written outside its tolerance: wrong-datum, with the line that wrote it', () => {
    const missing = `${head}G38.2 X60 F60\nG0 X0\nG10 L2 P1 X#5061\nM2`;
    const setup = {
      start: [0, 0, -10],
      part: [{ add: 'block', min: [20, -50, -30], max: [50, 50, 10] }],
      expect: { 'G54.x': { value: 20, tolerance: 0.01 } },
    };
    const { undisturbed } = rehearsed(missing, setup);
    expect(undisturbed.outcome.name).toBe('wrong-datum');
    expect(undisturbed.line).toBe(4);
    expect(undisturbed.outcome.errors.get('G54.x')).toBeCloseTo(-2, 9);
    expect(undisturbed.story).toContain('line 4 writes G54.x: 2 mm off');
  });

  test.each([
    ['a rapid move into the part', `${head}G0 Z-5\nM2`, 'collision'],
    [
      'an arc into the part',
      `${head}G0 X-60\nG18 G2 X60 Z20 I60 K0 F500\nG3 X-60 Z20 I-60 K0\nM2`,
      'collision',
    ],
    ['a touch without its retract, then sideways', `${head}G38.2 Z-5 F60\nG0 X10\nM2`, 'collision'],
    [
      'a touch without its retract, then along the part and off it',
      `${head}G38.2 Z-5 F60\nG0 X60\nM2`,
      'collision',
    ],
    ['a touch left at a slant', `${head}G38.2 Z-5 F60\nG0 X10 Z5\nG0 Z20\nM2`, 'completed'],
    ['a touch too fast for its overtravel', `${head}G38.2 Z-5 F3000\nG0 Z20\nM2`, 'collision'],
    ['a loop without an end', `${head}#1 = 1\no1 while [#1 EQ 1]\n  G4 P0\no1 endwhile\nM2`, 'endless'],
    ['a subroutine that calls itself', 'o<a> sub\no<a> call\no<a> endsub\no<a> call\nM2', 'endless'],
    ['an alarm against the part', `${head}G38.2 Z-5 F60\nG38.2 Z-5 F60\nM2`, 'contact-stop'],
    ['an alarm free of it', `${head}G38.2 Z10 F60\nM2`, 'message-stop'],
    ['nothing expected', `${head}G38.2 Z-5 F60\nG0 Z20\nM2`, 'completed'],
    ['no touch', `${head}G0 Z10\nM2`, 'completed'],
    ['a division by zero', `${head}#1 = [1 / 0]\nM2`, 'message-stop'],
    ['a name that nothing sets', `${head}G0 X#<nowhere>\nM2`, 'message-stop'],
    ['a call into a file that is not there', 'o<elsewhere> call\nM2', 'message-stop'],
  ])('%s', (_, program, wanted) => {
    expect(outcome(program, plate)).toBe(wanted);
  });

  test('the stem meets a step that the ball is past', () => {
    const step = { add: 'block', min: [20, -50, 8], max: [50, 50, 60] };
    const setup = {
      ...plate,
      start: [0, 0, 100],
      tool: 1,
      tools: { '1': { length: 80 } },
      part: [...plate.part, step],
    };
    const { undisturbed } = rehearsed(`${head}G0 Z82\nG0 X22\nM2`, setup, { options: { faults: [] } });
    expect(undisturbed.record.collisions).toMatchObject([{ with: 'stem', line: 2 }]);
  });

  describe('a ball that is pushed in by less than its overtravel holds the stem back', () => {
    // v²/2a + v·t = 1.022 mm past the trip at 800 mm/min; from ball to stem there is 1 mm.
    const tall = { ...plate, start: [0, 0, 80], tool: 1, tools: { '1': { length: 60 } } };
    const wall = { add: 'block', min: [20, -50, -30], max: [50, 50, 60] };
    const lowWall = { add: 'block', min: [20, -50, -30], max: [50, 50, 12] };
    const overhang = { add: 'block', min: [18.9, -50, 14], max: [50, 50, 60] };
    const [down, across] = ['G38.3 Z-5', 'G0 Z5\nG38.3 X30'];
    const walled = { ...tall, part: [...plate.part, wall] };
    const hung = { ...tall, part: [...plate.part, lowWall, overhang] };

    test.each([
      ['down', `${down} F800\nG0 Z20`, tall, 'completed', null],
      ['across', `${across} F800\nG0 X0`, walled, 'completed', null],
      ['across, and out again by touch', `${across} F800\nG38.5 X0 F60\nG0 X0`, walled, 'completed', null],
      ['too far', `${down} F2000\nG0 Z20`, tall, 'collision', 'overtravel'],
      ['across, where the stem comes first', `${across} F60\nG0 X0`, hung, 'collision', 'stem'],
    ] as const)('%s', (_, touch, setup, outcome, met) => {
      const { undisturbed } = rehearsed(`${head}G43 H1\n${touch}\nM2`, setup, { options: { faults: [] } });
      expect(undisturbed.outcome.name, undisturbed.story).toBe(outcome);
      expect(undisturbed.record.collisions[0]?.with ?? null).toBe(met);
    });
  });

  test('a start position in the part is said and not begun', () => {
    const { undisturbed, verdict } = rehearsed(careful, { ...plate, start: [0, 0, -5] });
    expect(undisturbed.outcome.name).toBe('collision');
    expect(undisturbed.story).toContain('the start position stands in the part');
    expect(verdict).toBe('fail');
  });

  test('a program that never touches completes and fails', () => {
    const { undisturbed, verdict } = rehearsed(`${head}G0 Z30\nM2`, top);
    expect(undisturbed.outcome.name).toBe('completed');
    expect(verdict).toBe('fail');
  });

  test('away from the surface: the release is latched where contact ends', () => {
    const program = `${head}G38.2 Z-5 F60\nG38.4 Z10 F60\n#<edge> = #5063\nG0 Z20\nM2`;
    const { record } = rehearsed(program, plate, { options: { faults: [] } }).undisturbed;
    expect(record.end.kind).toBe('program-end');
    expect(record.parameters.get('#<edge>')).toBeCloseTo(0, 7);
  });
});

describe('where nothing is expected, the truth follows from what was touched', () => {
  const bore = {
    start: [0.5, -0.3, -10],
    part: [...plate.part, { cut: 'bore', center: [1, 0], diameter: 25, top: 0, depth: 30 }],
    uncertainty: { x: 0.5, y: 0.5 },
  };
  const across = (write: string) =>
    `${head}G38.2 X20 F60\n#1 = #5061\nG0 X0.5\nG38.2 X-20 F60\n#2 = #5061\nG0 X0.5\n${write}\nM2`;

  test('the centre of the bore that it touched, also where the part stands off', () => {
    const { undisturbed, faults } = rehearsed(across('G10 L2 P1 X[[#1 + #2] / 2]'), bore, {
      options: { faults: ['part-shifted'] },
    });
    expect(undisturbed.outcome.name).toBe('datum-right');
    expect(undisturbed.outcome.errors.get('G54.x')).toBeCloseTo(0, 7);
    expect(faults.map(({ outcome: { name } }) => name)).toEqual(Array(4).fill('datum-right'));
  });

  test('one side without the radius of the tip is wrong by it', () => {
    const { undisturbed } = rehearsed(`${head}G38.2 X20 F60\nG0 X0.5\nG10 L2 P1 X#5061\nM2`, bore);
    expect(undisturbed.outcome.name).toBe('wrong-datum');
    expect(undisturbed.outcome.errors.get('G54.x')).toBeCloseTo(-2, 2);
  });

  test.each([
    ['in force', 'G43 H1\n'],
    ['not in force, so that the datum holds it', ''],
  ])('a height with the tool length %s', (_, length) => {
    const long = { ...plate, start: [0, 0, 100], tool: 1, tools: { '1': { length: 80 } } };
    const program = `${head}${length}G91\nG38.2 Z-25 F60\nG90\n#1 = #5063\nG10 L20 P1 Z[#<_z> - #1]\nM2`;
    const { undisturbed } = rehearsed(program, long, { options: { faults: ['wrong-tool'] } });
    expect(undisturbed.outcome.name).toBe('datum-right');
    expect(undisturbed.outcome.errors.get('G54.z')).toBeCloseTo(0, 7);
  });

  test('a datum along another axis than was touched can not be judged, and that is said', () => {
    const program = `${head}G38.2 X20 F60\nG0 X0.5\nG10 L2 P1 Y#5061\nM2`;
    const { undisturbed, cautions } = rehearsed(program, bore, { options: { faults: [] } });
    expect(undisturbed.outcome.name).toBe('completed');
    expect(undisturbed.story).toBe('ends; what G54.y should be is not known');
    expect(cautions.filter((text) => text.includes('G54.y'))).toHaveLength(1);
  });

  test('a datum that was meant to lie elsewhere is not judged', () => {
    expect(outcome(across('G10 L2 P1 X[[#1 + #2] / 2 - 40]'), bore)).toBe('completed');
  });
});

describe('faults', () => {
  test('part-absent: a write that nothing backs is wrong, a message is right', () => {
    expect(outcomesOf('part-absent', careless, top)).toEqual(['wrong-datum']);
    expect(outcomesOf('part-absent', careful, top)).toEqual(['message-stop']);
    const stored = careless.replace('G10 L2 P1 Z#5063', '#<edge> = #5063\nG10 L2 P1 Z#<edge>');
    const { faults } = rehearsed(stored, top, { options: { faults: ['part-absent'] } });
    expect(faults[0]?.story).toBe(
      'line 2: no contact; line 3 keeps the end of the travel; line 4 writes G54.z: and nothing was there',
    );
  });

  test('part-shifted: what is expected moves along', () => {
    expect(outcomesOf('part-shifted', careful, top)).toEqual(Array(6).fill('datum-right'));
    const blind = `${head}G10 L2 P1 Z0\nG38.3 Z-5 F60\nG0 Z20\nM2`;
    expect(outcomesOf('part-shifted', blind, top).filter((name) => name === 'wrong-datum')).toHaveLength(2);
  });

  test('part-turned: a height alone can not be judged', () => {
    expect(outcomesOf('part-turned', careful, top)).toEqual(['completed', 'completed']);
  });

  test('probe-dead ends against the part', () => {
    expect(outcomesOf('probe-dead', careful, top)).toEqual(['collision']);
    const far = `${head}G38.3 Z10 F60\nM2`;
    expect(outcomesOf('probe-dead', far, { ...top, expect: {} })).toEqual(['completed']);
  });

  test('probe-tripped: G38.3 alarms, a skip move completes at once', () => {
    expect(outcomesOf('probe-tripped', careful, top)).toEqual(['message-stop']);
    const skip = 'G21 G90 G94\nG31 Z-5. F60.\n#5223=#5063\nG0 Z20.\nM30';
    const given = { dialect: 'macro' as const };
    expect(outcome(skip, top, given)).toBe('datum-right');
    expect(outcomesOf('probe-tripped', skip, top, given)).toEqual(['wrong-datum']);
  });

  test('false-trip: half-way to the surface', () => {
    const { faults } = rehearsed(careless, top, { options: { faults: ['false-trip'] } });
    expect(faults[0]?.outcome.errors.get('G54.z')).toBeCloseTo(10, 9);
    expect(faults[0]?.story).toContain('half-way');
  });

  test('probe-stuck needs a touch that comes after', () => {
    expect(outcomesOf('probe-stuck', careful, top)).toEqual([]);
    const two = `${head}G38.2 Z-5 F60\nG0 Z5\nG38.2 Z-5 F60\nG0 Z5\nM2`;
    expect(outcomesOf('probe-stuck', two, { ...top, expect: {} })).toEqual(['message-stop']);
  });

  test('start-shifted moves the machine alone', () => {
    expect(outcomesOf('start-shifted', careful, top)).toEqual(Array(6).fill('datum-right'));
  });

  test('feed-doubled: touch feeds too', () => {
    const fast = `${head}G38.2 Z-5 F1000\nG0 Z20\nM2`;
    expect(outcome(fast, plate)).toBe('completed');
    expect(outcomesOf('feed-doubled', fast, plate)).toEqual(['collision']);
  });

  test('wrong-tool: a height comes out wrong by it, which is past help', () => {
    const { faults, verdict } = rehearsed(careful, top, { options: { faults: ['wrong-tool'] } });
    expect(faults.map(({ outcome: o }) => o.name)).toEqual(['wrong-datum', 'wrong-datum']);
    expect(faults.map(({ outcome: o }) => o.errors.get('G54.z'))).toEqual([
      expect.closeTo(3, 9),
      expect.closeTo(-3, 9),
    ]);
    expect(verdict).toBe('pass');
  });

  test('two at once: each form of the one with each of the other', () => {
    const both = outcomesOf(['part-shifted', 'feed-doubled'], careful, top);
    expect(both).toHaveLength(6);
  });

  test('two touches that trip half-way and agree by it: each two of them once, both told', () => {
    const twice = `${head}G38.3 Z-4 F60\n#1 = #5063\nG0 Z20\nG38.3 Z-4 F60\no1 if [ABS[#1 - #5063] GT 0.01]\nG0 Z20\n(MSG, they differ)\nM2\no1 endif\nG10 L20 P1 Z[#<_z> - #5063]\nG0 Z20\nM2`;
    expect(outcomesOf('false-trip', twice, top)).toEqual(['message-stop', 'message-stop']);
    const { faults } = rehearsed(twice, top, { options: { faults: [['false-trip', 'false-trip']] } });
    expect(faults).toHaveLength(1);
    // Half-way from 20 to the face at 0.
    expect(faults[0]?.outcome.errors.get('G54.z')).toBeCloseTo(10, 6);
    expect(faults[0]).toMatchObject({
      fault: { detail: 'touch 1, touch 2' },
      outcome: { name: 'wrong-datum' },
    });
    expect(faults[0]?.story.match(/trips half-way/g)).toHaveLength(2);
  });

  test('a pair of which one has no occasion is left to the row of the other', () => {
    const alarming = `${head}G38.2 Z-5 F60\nG0 Z20\nG38.2 Z-5 F60\nG0 Z20\nM2`;
    expect(outcomesOf(['probe-tripped', 'false-trip'], alarming, top)).toEqual(['message-stop']);
    expect(outcomesOf(['probe-dead', 'false-trip'], alarming, top)).toEqual([]);
  });

  test('a tool that is too long and too short is as long as its entry says', () => {
    expect(outcomesOf(['wrong-tool', 'wrong-tool'], careful, top)).toEqual(['datum-right']);
  });

  test('a part that is shifted and turned: what is expected goes both ways', () => {
    const across = (axis: string, n: number) =>
      `G38.2 ${axis}30 F60\n#1 = #506${n}\nG0 ${axis}0\nG38.2 ${axis}-30 F60\n#2 = #506${n}\nG0 ${axis}[[#1 + #2] / 2]\n`;
    const program = `${head}${across('X', 1)}${across('Y', 2)}G10 L20 P1 X0 Y0\nG0 Z20\nM2`;
    const bore = {
      start: [0, 0, -10],
      part: [
        { add: 'block', min: [-100, -50, -30], max: [50, 50, 0] },
        { cut: 'bore', center: [0, 0], diameter: 40, top: 0, depth: 30 },
      ],
      uncertainty: { x: 1, degrees: 2 },
      expect: { 'G54.x': { value: 0, tolerance: 0.05 }, 'G54.y': { value: 0, tolerance: 0.05 } },
    };
    expect(outcomesOf(['part-shifted', 'part-turned'], program, bore)).toEqual(Array(4).fill('datum-right'));
    expect(outcomesOf(['part-turned', 'part-shifted'], program, bore)).toEqual(Array(4).fill('datum-right'));
  });

  test('a fault without a size is left out', () => {
    const { faults } = rehearsed(careful, { ...plate, expect: expectTop });
    const names = new Set(faults.map(({ fault }) => fault.name));
    expect(names).toEqual(
      new Set(['part-absent', 'probe-dead', 'probe-tripped', 'false-trip', 'feed-doubled']),
    );
  });

  test('a run can be given up', () => {
    const endless = '#1 = 1\no1 while [#1 EQ 1]\n  #2 = 1\no1 endwhile\nM2';
    expect(() => rehearsed(endless, plate, { options: { cancelled: () => true } })).toThrow();
  });
});
