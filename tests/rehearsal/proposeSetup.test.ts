import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { builtInProfile } from '../../server/profile/profile.ts';
import { proposeSetup } from '../../server/rehearsal/proposeSetup.ts';
import { readSetup } from '../../server/rehearsal/readSetup.ts';
import { setupText } from '../../server/report/setupText.ts';
import { routines, writeRoutine } from '../../server/routines/registry.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { aProfile, aSource } from './rehearsed.ts';

const folder = join(import.meta.dirname, '../../client/walkthrough/demo');
const text = (name: string) => readFileSync(join(folder, name), 'utf8');
const demoProfile = aProfile(JSON.parse(text('probewright.json').replace(/^\s*\/\/.*$/gm, '')));

function proposed(program: string, dialect: DialectName = 'rs274ngc', profile = demoProfile) {
  const proposal = proposeSetup(aSource(program, dialect), profile);
  if ('problem' in proposal) throw new Error(proposal.problem);
  const { record, outcome, story } = proposal.rehearsal.undisturbed;
  const reading = readSetup(setupText(proposal, 'a program'));
  expect(reading.problems).toEqual([]);
  expect(reading.setup).toEqual(proposal.setup);
  const shapes = proposal.setup.solids.map(
    ({ role, outline }) => `${role} ${outline.kind === 'circle' ? 'circle' : 'block'}`,
  );
  const tripped = record.touches.filter((touch) => touch.tripped).length;
  return { ...proposal, outcome: outcome.name, story, shapes: shapes.join(', '), tripped };
}

const dialectOf = (name: string) => (name.endsWith('.nc') ? 'macro' : 'rs274ngc');

describe('a setup that follows from what a program touches', () => {
  test.each([
    ['bore-centre.ngc', 'datum-right', 'add block, cut circle', 8],
    ['boss-inch.ngc', 'datum-right', 'add block', 4],
    ['boss-width.nc', 'datum-right', 'add block', 4],
    ['bore-test-too-early.nc', 'datum-right', 'add block, cut block', 4],
    ['casting-present.nc', 'completed', 'add block', 2],
    ['corner-two-edges.ngc', 'datum-right', 'add block', 8],
    ['flange-back-off.ngc', 'datum-right', 'add block', 2],
    ['height-old.nc', 'datum-right', 'add block', 1],
    ['top-face.ngc', 'datum-right', 'add block', 2],
    // It touches again in contact, whatever the part: that is what it is shown for.
    ['bore-quick.ngc', 'contact-stop', 'add block, cut block', 2],
  ])('%s: %s on %s', (name, outcome, shapes, tripped) => {
    expect(proposed(text(name), dialectOf(name))).toMatchObject({ outcome, shapes, tripped });
  });

  test.each([
    ['after-milling.ngc', 'cutter compensation'],
    ['edges-in-a-hurry.ngc', 'spindle turns'],
    ['fourth-axis.ngc', 'feed per minute'],
    ['typed-at-the-control.ngc', 'feed per minute'],
  ])('%s ends in an alarm before it meets anything (%s): said in words', (name, words) => {
    const proposal = proposeSetup(aSource(text(name), dialectOf(name)), demoProfile);
    expect(proposal).toEqual({ problem: expect.stringContaining(words) });
  });

  const cases = routines.flatMap((routine) =>
    (['rs274ngc', 'macro'] as const).map((dialect) => ({ routine, name: routine.name, dialect })),
  );
  test.each(cases)('the generated $name in $dialect ends right', ({ routine, dialect }) => {
    const options = { profile: demoProfile, dialect, form: 'inline', units: 'mm', standAlone: true } as const;
    const written = writeRoutine(routine, {}, options);
    if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
    const { outcome, story } = proposed(written.text, dialect);
    expect({ outcome, story }).toMatchObject({ outcome: expect.stringMatching(/^(datum-right|completed)$/) });
  });

  test('four touches at a corner are on a circle too, and make a corner all the same', () => {
    const corner = routines.find(({ name }) => name === 'outside-corner');
    const options = { profile: builtInProfile, dialect: 'rs274ngc', form: 'inline', units: 'mm' } as const;
    const written = corner && writeRoutine(corner, {}, { ...options, standAlone: true });
    if (!written || !('text' in written)) throw new Error('the corner is not written');
    const { outcome, shapes } = proposed(written.text, 'rs274ngc', builtInProfile);
    expect({ outcome, shapes }).toEqual({ outcome: 'datum-right', shapes: 'add block' });
  });

  test('the width that the program tests decides how large the bore is', () => {
    const [, bore] = proposed(text('bore-centre.ngc')).setup.solids;
    const radius = bore?.outline.kind === 'circle' ? bore.outline.radius : 0;
    expect(Math.abs(2 * radius - 62)).toBeLessThan(0.25);
  });

  test('faces where the tip meets them half-way; placement and tool from the profile', () => {
    const { setup } = proposed(
      'G21 G90 G94 G17 G40\nG43 H9\nG54\nG0 Z10\nG38.2 Z-10 F50\nG10 L2 P1 Z#5063\nG0 Z20\nM2\n',
    );
    expect(setup.solids[0]?.top).toBeCloseTo(setup.workOffsets.get('G54')?.[2] ?? 0, 9);
    expect(setup.uncertainty).toEqual({ x: 3, y: 3, z: 3, degrees: 1 });
    expect(setup.tool).toBe(9);
  });

  test('in inches where the program is', () => {
    expect(proposed(text('boss-inch.ngc')).setup.units).toBe('inch');
  });

  test('places that make no one shape get a target each, and the text says so', () => {
    const stairs = [10, 40].map((x, i) => `G0 X${x}\nG38.2 Z${-20 - 15 * i} F50\nG0 Z20\n`).join('');
    const proposal = proposed(`G21 G90 G94 G17 G40\nG54\nG0 Z20\n${stairs}G38.2 Z-80\nG0 Z20\nM2\n`);
    expect(proposal.outcome).toBe('completed');
    expect(proposal.tripped).toBe(3);
  });

  test.each([
    ['no touch', 'G21 G90\nG0 X5\nM2\n', /reaches no touch/],
    ['nothing at all', '', /reaches no touch/],
    ['a touch that no run gets to', 'G21 G90\n#1 = [1 / 0]\nG38.2 Z-5 F50\nM2\n', /line 2: alarm/],
    ['a touch farther than any machine', 'G21 G90\nG38.2 X5000000 F50\nM2\n', /at most 1000000/],
    ['a loop without an end', '#1 = 1\no1 while [#1 EQ 1]\n#2 = 3\no1 endwhile\nG38.2 Z-5 F50\nM2\n', /no/],
  ])('%s: words', (_, program, words) => {
    expect(proposeSetup(aSource(program), builtInProfile)).toEqual({ problem: expect.stringMatching(words) });
  });
});
