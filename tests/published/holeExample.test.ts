import { describe, expect, test } from 'vitest';
import { builtInProfile } from '../../server/profile/profile.ts';
import { routineNamed, writeRoutine } from '../../server/routines/registry.ts';
import { plateWithHole } from '../routines/parts.ts';
import { runProgram } from '../routines/runProgram.ts';
import { type Point, TestMachine } from '../routines/testMachine.ts';

/**
 * NISTIR 6556 (Kramer, Proctor, Messina, 2000), 3.5.9.3, Table 6, finds a hole along X, Y through the middle found, and X
 * again. The hole and the figures are case RS-HOLE-1 of shared/reference: "derived from the source and computed".
 */
const hole = { x: 10.04, y: -5.03, diameter: 25.4 };
const nominal = { x: 10, y: -5, diameter: 25.6, tipRadius: 2 };
const firstPassDiameter = 25.399915887685165;

describe('NISTIR 6556, 3.5.9.3, Table 6 (case RS-HOLE-1, derived from the source and computed)', () => {
  const bore = routineNamed('bore');
  if (bore === null) throw new Error('no bore');
  const written = writeRoutine(
    bore,
    { diameter: nominal.diameter, depth: 10 },
    { profile: builtInProfile, dialect: 'rs274ngc', form: 'inline', units: 'mm' },
  );
  if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
  const start: Point = [nominal.x, nominal.y, 5];
  const machine = new TestMachine(
    plateWithHole(hole.x, hole.y, hole.diameter, 4),
    start,
    nominal.tipRadius,
    0,
    0,
  );
  const outcome = runProgram(written.text, 'rs274ngc', machine, new Map());
  const value = (name: string) => outcome.parameters.get(name) ?? Number.NaN;

  test('the centre is that of the hole', () => {
    expect(value('centre_x')).toBeCloseTo(hole.x, 9);
    expect(value('centre_y')).toBeCloseTo(hole.y, 9);
    expect(outcome.written.get(1)?.X).toBeCloseTo(hole.x, 9);
    expect(outcome.written.get(1)?.Y).toBeCloseTo(hole.y, 9);
  });

  test('both diameters are that of the hole', () => {
    expect(value('diameter_x')).toBeCloseTo(hole.diameter, 9);
    expect(value('diameter_y')).toBeCloseTo(hole.diameter, 9);
  });

  test('the first pass along X runs on a chord and is short by 0.084 µm', () => {
    const chord = value('rough_x_plus') - value('rough_x_minus') + 2 * nominal.tipRadius;
    expect(chord).toBeCloseTo(firstPassDiameter, 9);
  });

  test('a tip radius that is wrong by 0.003 mm changes the diameters by 0.006 mm and the centre not at all (RS-HOLE-ELL)', () => {
    const wrong = written.text.replace('#<tip> = 4 ', '#<tip> = 4.006 ');
    expect(wrong).not.toBe(written.text);
    const again = new TestMachine(
      plateWithHole(hole.x, hole.y, hole.diameter, 4),
      start,
      nominal.tipRadius,
      0,
      0,
    );
    const { parameters } = runProgram(wrong, 'rs274ngc', again, new Map());
    expect(parameters.get('diameter_x')).toBeCloseTo(hole.diameter + 0.006, 9);
    expect(parameters.get('centre_x')).toBeCloseTo(hole.x, 9);
    expect(parameters.get('centre_y')).toBeCloseTo(hole.y, 9);
  });
});
