import { describe, expect, test } from 'vitest';
import { outcomesOf, plate, rehearsed } from './rehearsed.ts';

const head = 'G21 G90 G94 G17 G40\n';
const expectTop = { 'G54.z': { value: 0, tolerance: 0.01 } };
const top = { ...plate, expect: expectTop };
const write = 'G10 L20 P1 Z[#<_z> - #5063]\nG0 Z20\n';

describe('a message stops a run only where nothing is written behind it', () => {
  test('words on the way, and a wrong datum all the same: wrong-datum', () => {
    const program = `${head}G38.3 Z-5 F60
o1 if [#5063 GT 1]
  (MSG, higher than by the drawing)
o1 endif
${write}M2`;
    expect(outcomesOf('false-trip', program, top)).toEqual(['wrong-datum']);
  });

  test('words, another try, and the datum right: datum-right', () => {
    const program = `${head}G38.3 Z-5 F60
o1 if [ABS[#5063] GT 1]
  (MSG, not where it should be: once more)
  G0 Z20
  G38.3 Z-5
o1 endif
${write}M2`;
    expect(outcomesOf('false-trip', program, top)).toEqual(['datum-right']);
  });

  test('a stop that the undisturbed run has too ends a run with words of its own, and no other', () => {
    const program = `${head}(MSG, the probe is in)
M0
G38.3 Z-5 F60
o1 if [#5070 EQ 0]
  (MSG, no top)
o1 else
  G10 L20 P1 Z[#<_z> - #5063]
  (MSG, found)
o1 endif
G0 Z20
M0
M2`;
    expect(outcomesOf('feed-doubled', program, top)).toEqual(['datum-right']);
    const { faults, undisturbed } = rehearsed(program, top, { options: { faults: ['part-absent'] } });
    expect(undisturbed.outcome.name).toBe('datum-right');
    expect(faults[0]).toMatchObject({ outcome: { name: 'message-stop' }, line: 12 });
    expect(faults[0]?.story).toBe('line 4: no contact; line 6: stops with “no top”');
  });

  test('words that stopped the undisturbed run stop the others too', () => {
    const program = `${head}G38.3 Z-5 F60
o1 if [#5063 LT 5]
  (MSG, too low)
  G0 Z20
  M2
o1 endif
${write}M2`;
    const { undisturbed, faults, verdict } = rehearsed(program, top, {
      options: { faults: ['part-absent'] },
    });
    expect([undisturbed, ...faults].map(({ outcome }) => outcome.name)).toEqual([
      'message-stop',
      'message-stop',
    ]);
    expect(verdict).toBe('fail');
  });

  test('a program that gives up before it writes has not completed, whatever the setup expects', () => {
    const program = `${head}G38.3 Z-5 F60
o1 if [#5063 LT 5]
  (MSG, too low)
  M2
o1 endif
${write}M2`;
    const { undisturbed, verdict } = rehearsed(program, plate, { options: { faults: [] } });
    expect(undisturbed.outcome.name).toBe('contact-stop');
    expect(verdict).toBe('fail');
  });

  test('a program that writes no datum may say what it found', () => {
    const program = `${head}G38.3 Z-5 F60\n#<height> = #5063\nG0 Z20\n(MSG, measured)\nM2`;
    const { undisturbed, verdict } = rehearsed(program, plate, { options: { faults: [] } });
    expect(undisturbed.outcome.name).toBe('completed');
    expect(verdict).toBe('pass');
  });

  test('touches that meet nothing prove nothing', () => {
    const { undisturbed, verdict } = rehearsed(`${head}G38.3 Z10 F60\nM2`, plate, {
      options: { faults: [] },
    });
    expect(undisturbed).toMatchObject({
      outcome: { name: 'completed' },
      story: 'ends, and no touch met anything',
    });
    expect(verdict).toBe('fail');
  });
});

test('guarded ways that meet nothing, as always, are no part of a story', () => {
  const program = `${head}G38.3 Z10 F60\nG38.3 X5\n#1 = #5061\nG38.3 Z-5\n${write}M2`;
  const { faults } = rehearsed(program, top, { options: { faults: ['part-absent'] } });
  expect(faults[0]?.story).toBe('line 5: no contact; line 6 writes G54.z: and nothing was there');
});

describe('a touch that does not trip is told by what became of it', () => {
  const within = 'within the travel';

  test.each([
    [
      'it met nothing',
      'part-absent',
      'G38.2 Z-5 F60',
      `line 2: no contact; line 2: alarm (no contact ${within})`,
    ],
    [
      'a dead probe met the part',
      'probe-dead',
      'G38.2 Z-2 F60',
      `line 2: no trip; line 2: alarm (no trip ${within}), the tip against the part`,
    ],
    [
      'a dead probe met the part and was pushed on',
      'probe-dead',
      'G38.3 Z-9 F60',
      'line 2: no trip; line 2: the stylus is pushed past its overtravel at X0 Y0 Z0 mm, machine coordinates',
    ],
    [
      'a stuck one does not let go',
      'probe-stuck',
      'G38.2 Z-5 F60\nG38.4 Z9',
      `line 3: no release; line 3: alarm (no release ${within})`,
    ],
  ] as const)('%s', (_, fault, touches, story) => {
    const { faults } = rehearsed(`${head}${touches}\nG0 Z20\nM2`, plate, { options: { faults: [fault] } });
    expect(faults[0]?.story).toBe(story);
  });

  test('a pre-travel that the travel has no room for is no missing part', () => {
    const probe = { tipDiameter: 4, calibration: { effectiveDiameter: 3, expandedUncertainty: 0, feed: 60 } };
    const { undisturbed } = rehearsed(
      `${head}G0 Y10 Z-5\nG38.3 X-2.1 F60\nG0 X9\nM2`,
      {
        start: [9, 10, 20],
        part: [{ add: 'block', min: [-50, -50, -30], max: [-4, 50, 0] }],
      },
      { profile: { probe, machine: { tripLatency: 0 } }, options: { faults: [] } },
    );
    expect(undisturbed.record.touches[0]?.surface?.[0]).toBeCloseTo(-4, 7);
    expect(undisturbed.record.touches[0]?.tripped).toBe(false);
  });
});

test('a fault that leads where the rehearsal cannot follow is told beside the verdict', () => {
  const program = `${head}G38.3 Z-5 F60
o1 if [#5070 EQ 0]
  o<elsewhere> call
o1 endif
${write}M2`;
  const { faults, cautions } = rehearsed(program, top, {
    options: { faults: ['part-absent', 'feed-doubled'] },
  });
  expect(faults.map(({ outcome }) => outcome.name)).toEqual(['message-stop', 'datum-right']);
  expect(cautions[0]).toMatch(/^what becomes of part-absent behind line 4: a call into a file/);
});

test.each([
  ['an input that nothing sets', {}, 'contact-stop', 1],
  ['an input that the setup sets', { parameters: { '#1005': 1 } }, 'completed', 1],
])('%s is told of', (_, more, outcome, told) => {
  const program = 'G21 G90 G94\nG31 Z-5. F60.\nIF[#1005EQ0]GOTO9\nG0 Z20.\nM30\nN9#3000=1(NO CONTACT)\n';
  const { undisturbed, cautions } = rehearsed(
    program,
    { ...plate, ...more },
    { dialect: 'macro', options: { faults: [] } },
  );
  expect(undisturbed.outcome.name).toBe(outcome);
  expect(cautions.filter((text) => text.startsWith('#1005 is an input of the machine'))).toHaveLength(told);
});
