import { expect } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { check } from '../../server/checks/check.ts';
import type { Place } from '../../server/routines/nominalPart.ts';
import { writeRoutine } from '../../server/routines/registry.ts';
import { tipSource } from '../../server/routines/tipDiameter.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import type { Case } from './everyCase.ts';
import { inputsOverProfiles, type Sample } from './randomInputs.ts';
import { feedAtStart, modesAtStart, type Outcome, runProgram } from './runProgram.ts';
import { dot, sceneFor, start } from './scene.ts';
import { type Point, TestMachine } from './testMachine.ts';

const origins = new Map<number, Point>([1, 2, 3, 4, 5, 6].map((k) => [k, [40 * k, 31 * k, -300 + k]]));
/** What rounding to the printed decimals can do: half of 0.0001 mm or 0.00001 in, a few times over. */
const rounding = 6e-4;

/** Our own checks find nothing above information in what the routine writes, as a block and as a program. */
export function expectNoFindings({ routine, dialect, form, units }: Case, count: number): void {
  for (const [index, { profile, inputs, said }] of inputsOverProfiles(routine, units, count).entries()) {
    const standAlone = index % 2 === 0;
    const written = writeRoutine(routine, inputs, { profile, dialect, form, units, standAlone });
    if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
    const source = Source.from(SourceText.from(written.text), dialects[dialect]);
    const { findings, suppressed } = check(source, analyse(source, profile), profile);
    const found = findings
      .filter(({ severity }) => severity !== 'info')
      .map(({ rule, place, message }) => `${rule} at ${source.text.line(place.line)}: ${message}`);
    expect([found, suppressed], said).toEqual([[], 0]);
  }
}

/** What the program writes and measures is true, with a perfect probe on a feature off its place; modes come back. */
export function expectTruth(each: Case, count: number): void {
  for (const sample of inputsOverProfiles(each.routine, each.units, count)) measureOne(each, sample);
}

function measureOne(
  { routine, dialect, form, units }: Case,
  { profile, inputs, random, said }: Sample,
): void {
  // A block finds modes of the program around it; a subroutine those of its call.
  const standAlone = form === 'subroutine';
  const written = writeRoutine(routine, inputs, { profile, dialect, form, units, standAlone });
  if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
  const scene = sceneFor(routine, inputs, profile, units, random);
  const tip = tipSource(profile, dialect, units).mm ?? profile.probe.tipDiameter;
  const preTravel = (profile.probe.tipDiameter - tip) / 2;
  const machine = new TestMachine(scene.part, start, profile.probe.tipDiameter / 2, preTravel, 0.15);
  const parameters = { '5410': units === 'inch' ? tip / 25.4 : tip };
  const before: Record<string, string> =
    form === 'inline' ? {} : { units: units === 'inch' ? 'G20' : 'G21', distance: 'G90' };
  const outcome = runProgram(written.text, dialect, machine, origins, { parameters, modes: before });
  expect(outcome.message, said).toBeNull();
  const unit = units === 'inch' ? 25.4 : 1;
  const offset = String(inputs.workOffset ?? 'active');
  const system = offset === 'active' ? 1 : Number(offset.slice(1)) - 53;
  const found = outcome.written.get(system) ?? {};
  const origin = origins.get(system) ?? [0, 0, 0];
  const placed: Point = [found.X ?? origin[0], found.Y ?? origin[1], found.Z ?? origin[2]];
  const moved: Point = [placed[0] - origin[0], placed[1] - origin[1], placed[2] - origin[2]];
  for (const { direction, at, becomes } of scene.places)
    expect(Math.abs(dot(direction, placed) + becomes - at), said).toBeLessThan(rounding);
  expect(beyond(moved, scene.places), said).toBeLessThan(rounding);
  expect(turnedAsMeasured(found.R, scene.results.turned), said).toBe(
    dialect === 'rs274ngc' && inputs.result !== 'report' && routine.name === 'edge-angle',
  );
  for (const [name, value] of Object.entries(scene.results)) {
    const result = routine.results.find((each) => each.name === name);
    if (result === undefined) throw new Error(name);
    const isAngle = result.kind === 'angle';
    const error = resultOf(result.title, written.text, outcome) * (isAngle ? 1 : unit) - value;
    expect(Math.abs(error), `${said} ${name}`).toBeLessThan(isAngle ? 0.002 : rounding);
  }
  expect(machine.deepest, said).toBeLessThan(preTravel + 0.15 + 1e-6);
  const { motion: _, ...modes } = outcome.modes;
  expect(modes).toEqual({ ...modesAtStart, ...before });
  expect(outcome.feed).toBe(feedAtStart);
}

/** Whether the work offset was turned; by another angle than the true one is an error. */
function turnedAsMeasured(written: number | undefined, degrees: number | undefined): boolean {
  if (written === undefined) return false;
  expect(Math.abs(written - (degrees ?? Number.NaN))).toBeLessThan(0.002);
  return true;
}

/** How far the origin moved where it had no reason to, mm. */
function beyond([x, y, z]: Point, places: readonly Place[]): number {
  const rest = places.reduce(
    ([a, b, c], { direction }) => {
      const along = dot(direction, [x, y, z]);
      return [a - along * direction[0], b - along * direction[1], c - along * direction[2]] as const;
    },
    [x, y, z] as const,
  );
  return Math.hypot(...rest);
}

/** The value of the parameter that the routine's last comment names as this result. */
function resultOf(title: string, text: string, { parameters }: Outcome): number {
  const comments = text.replace(/\)\n\(/g, ' ');
  const name = new RegExp(`#(<[^>]+>|\\d+) ${title}`, 'i').exec(comments)?.[1]?.replace(/[<>]/g, '');
  const value = parameters.get(name ?? '');
  if (value === undefined) throw new Error(`no result ${title}`);
  return value;
}
