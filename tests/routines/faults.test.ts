import { describe, expect, test } from 'vitest';
import { probeOf } from '../../server/profile/probeOf.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { paceOf } from '../../server/routines/pace.ts';
import { routineNamed, routines, writeRoutine } from '../../server/routines/registry.ts';
import type { Routine } from '../../server/routines/routine.ts';
import type { Form } from '../../server/routines/writing.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { everyCase } from './everyCase.ts';
import { halfSpace, nothing, type Part } from './parts.ts';
import { randomNumbers } from './randomInputs.ts';
import { modesAtStart, type Outcome, runProgram } from './runProgram.ts';
import { sceneFor, start } from './scene.ts';
import { type Faults, TestMachine } from './testMachine.ts';

const profile = builtInProfile;
const origins = new Map([[1, [10, 20, -300] as const]]);

function run(
  routine: Routine,
  dialect: DialectName,
  form: Form,
  part: Part,
  faults: Faults = {},
  inputs = {},
): { outcome: Outcome; machine: TestMachine } {
  const standAlone = form === 'subroutine';
  const written = writeRoutine(routine, inputs, { profile, dialect, form, units: 'mm', standAlone });
  if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
  const machine = new TestMachine(part, start, profile.probe.tipDiameter / 2, 0.005, 0.25, faults);
  return { outcome: runProgram(written.text, dialect, machine, origins), machine };
}

/** It said something, wrote nothing, and stands free of the part. */
function stoppedInTime({ outcome, machine }: { outcome: Outcome; machine: TestMachine }, said: string): void {
  expect(outcome.message, said).not.toBeNull();
  expect(outcome.written.size, said).toBe(0);
  expect(machine.gap(machine.position), said).toBeGreaterThan(0);
}

const mm = everyCase(routines).filter(({ units }) => units === 'mm');

describe('what goes wrong ends with a message, nothing written and the tip free', () => {
  test.each(mm)('$name, $dialect, $form: no part', ({ routine, dialect, form }) => {
    const { outcome, machine } = run(routine, dialect, form, nothing);
    stoppedInTime({ outcome, machine }, '');
    expect(machine.position[2]).toBe(start[2]);
    const { motion: _, ...modes } = outcome.modes;
    const found = form === 'inline' ? modesAtStart : { ...modesAtStart, distance: 'G90' };
    expect(modes).toEqual(found);
  });

  test.each(mm)('$name, $dialect, $form: a false trip of any touch', ({ routine, dialect, form }) => {
    const { part } = sceneFor(routine, {}, profile, 'mm', randomNumbers(3));
    const { touches } = run(routine, dialect, form, part).machine;
    expect(touches).toBeGreaterThan(2);
    for (let falseTrip = 1; falseTrip <= touches; falseTrip++) {
      const result = run(routine, dialect, form, part, { falseTrip });
      stoppedInTime(result, `touch ${falseTrip} of ${touches}`);
      expect(result.machine.position[2]).toBe(start[2]);
    }
  });

  test.each(mm)('$name, $dialect, $form: the signal stays on', ({ routine, dialect, form }) => {
    const { part } = sceneFor(routine, {}, profile, 'mm', randomNumbers(4));
    const undisturbed = run(routine, dialect, form, part);
    const { touches } = undisturbed.machine;
    for (let stuckAfter = 1; stuckAfter < touches; stuckAfter++) {
      const { outcome, machine } = run(routine, dialect, form, part, { stuckAfter });
      const tripped = outcome.ended !== 'end';
      // A guarded move that meets nothing leaves the signal off: then all goes on as if nothing were wrong.
      if (tripped) stoppedInTime({ outcome, machine }, `after touch ${stuckAfter}`);
      else expect(outcome.written).toEqual(undisturbed.outcome.written);
    }
  });

  test.each(mm)('$name, $dialect, $form: a part out of reach', ({ routine, dialect, form }) => {
    const { part } = sceneFor(routine, {}, profile, 'mm', randomNumbers(5));
    const away: Part = (x, y, z) => part(x - 60, y - 60, z + 60);
    stoppedInTime(run(routine, dialect, form, away), '');
  });
});

describe('an obstacle on the way', () => {
  test.each(['rs274ngc', 'macro'] as const)('stops the way down, %s', (dialect) => {
    const plate = halfSpace([0, 0, 1], start[2] - 6);
    for (const name of ['surface', 'bore', 'boss', 'outside-corner']) {
      const routine = routineNamed(name);
      if (routine === null) throw new Error(name);
      const result = run(routine, dialect, 'inline', plate);
      stoppedInTime(result, name);
      const { guarded } = paceOf(profile, probeOf(profile));
      expect(result.outcome.message).toMatch(/in Z/i);
      expect(guarded).toBeGreaterThan(profile.feeds.search);
    }
  });

  test.each(['rs274ngc', 'macro'] as const)('stops the way around the boss, %s', (dialect) => {
    const boss = routineNamed('boss');
    if (boss === null) throw new Error('no boss');
    const { part } = sceneFor(boss, {}, profile, 'mm', randomNumbers(6));
    const wall = halfSpace([1, 0, 0], start[0] - 20);
    const blocked: Part = (x, y, z) => Math.min(part(x, y, z), wall(x, y, z));
    const result = run(boss, dialect, 'inline', blocked);
    stoppedInTime(result, '');
    expect(result.outcome.message).toMatch(/in X/i);
  });
});

describe('a subroutine looks at its arguments before it moves', () => {
  test.each([
    ['rs274ngc', 'o<probe_bore> call [25] [15]', 'o<probe_bore> call [5] [15]'],
    ['macro', 'G65 P8102 A25. B15.', 'G65 P8102 A5. B15.'],
  ] as const)('%s', (dialect, good, bad) => {
    const bore = routineNamed('bore');
    if (bore === null) throw new Error('no bore');
    const written = writeRoutine(
      bore,
      {},
      { profile, dialect, form: 'subroutine', units: 'mm', standAlone: true },
    );
    if (!('text' in written)) throw new Error('refused');
    expect(written.text).toContain(`\n${good}`);
    const machine = new TestMachine(nothing, start, 2, 0, 0.2);
    const outcome = runProgram(written.text.replace(`\n${good}`, `\n${bad}`), dialect, machine, origins);
    expect(outcome.message).toMatch(/too small/i);
    expect(machine.position).toEqual(start);
    expect(machine.touches).toBe(0);
  });
});
