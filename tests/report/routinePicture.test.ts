import { describe, expect, test } from 'vitest';
import { routinesPage } from '../../server/editor/routinesPage.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { routinePicture } from '../../server/report/routinePicture.ts';
import { nominalTouches } from '../../server/routines/nominalTouches.ts';
import { planOf } from '../../server/routines/plan.ts';
import { routineNamed, routines } from '../../server/routines/registry.ts';
import { noProfileFile } from '../../server/workspace/fileProfile.ts';

function touchesOf(name: string, given: Record<string, string | number>) {
  const routine = routineNamed(name);
  const planned = routine && planOf(routine, given, builtInProfile, 'mm');
  if (!planned || 'problems' in planned) throw new Error(name);
  return nominalTouches(routine, planned.plan, planned.values);
}

describe.each(routines)('$name', (routine) => {
  const picture = routinePicture(routine, {}, builtInProfile, 'mm') ?? '';

  test('has a picture with all of its touches, and says them in words', () => {
    const touches = touchesOf(routine.name, {});
    expect(touches.length).toBeGreaterThan(0);
    expect(picture).toMatch(/^<svg .*<\/svg>$/s);
    expect(picture).toContain(`<desc>${touches.length} touch`);
    for (let i = 1; i <= touches.length; i++) expect(picture).toMatch(new RegExp(`[>,] ?${i}[<,]`));
    expect(picture).not.toMatch(/NaN|Infinity|undefined/);
  });
});

test('a bore of 25 mm is touched on its wall, with the 4 mm ball inside', () => {
  const touches = touchesOf('bore', { diameter: 25, depth: 15, passes: 'one' });
  expect(touches.map(({ tip }) => tip.map((each) => Math.round(each * 1e6) / 1e6))).toEqual([
    [-10.5, 0, -15],
    [10.5, 0, -15],
    [0, -10.5, -15],
    [0, 10.5, -15],
  ]);
  expect(touches.map(({ direction }) => direction.slice(0, 2).map((each) => each + 0))).toEqual([
    [-1, 0],
    [1, 0],
    [0, -1],
    [0, 1],
  ]);
});

test('inputs that make no routine have no picture', () => {
  const bore = routineNamed('bore');
  expect(bore && routinePicture(bore, { diameter: -1 }, builtInProfile, 'mm')).toBeNull();
});

test('the page names every routine with its picture and its error', () => {
  const { markdown } = routinesPage(noProfileFile);
  for (const { title, summary } of routines) {
    expect(markdown).toContain(`## ${title}`);
    expect(markdown).toContain(summary);
    expect(markdown).toContain(`${title}, seen from above`);
  }
  expect(markdown).toMatch(/\| the centre in X \| ±[\d.]+ µm/);
});
