import { describe, expect, test } from 'vitest';
import { inStyle } from '../../server/editor/fileStyle.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { routines, writeRoutine } from '../../server/routines/registry.ts';
import { type Case, everyCase } from './everyCase.ts';
import { inputsOverProfiles, seed } from './randomInputs.ts';

/** What a program around it may already have taken: round numbers, our own and their neighbours. */
const usedLabels = new Set<number | string>([
  ...Array.from({ length: 40 }, (_, i) => 101 + i),
  ...Array.from({ length: 30 }, (_, i) => 8100 + i),
  ...[901, 902, 903],
  ...routines.map(({ subroutine }) => subroutine.name),
]);
const usedParameters = new Set(Array.from({ length: 20 }, (_, i) => `#${100 + 2 * i}`));
/** Deep in a program of five-digit N numbers. */
const style = { isLowerCase: true, numbers: { next: 12_340, step: 5 } };

function linesOf(
  { routine, dialect, form, units }: Case,
  inputs = {},
  profile = builtInProfile,
): readonly string[] {
  const options = { profile, dialect, form, units, usedLabels, usedParameters };
  const written = writeRoutine(routine, inputs, options);
  if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
  const indent = dialect === 'rs274ngc' ? ' '.repeat(12) : '';
  return inStyle(written.text.trimEnd().split('\n'), style, { indent });
}

const numbersIn = (lines: readonly string[], word: RegExp) =>
  lines.flatMap((line) => [...line.replace(/\([^)]*\)/g, '').matchAll(word)].map(([, n]) => Number(n)));

describe(`what is written keeps to the limits of its dialect, put into a full program (seed ${seed})`, () => {
  test.each(everyCase(routines))('$name, $dialect, $form, $units', (each) => {
    const isMacro = each.dialect === 'macro';
    for (const { profile, inputs, said } of inputsOverProfiles(each.routine, each.units, 8)) {
      const lines = linesOf(each, inputs, profile);
      // RS274/NGC: 256 characters a line (NISTIR 6556, 3.3); of the macro family no source: our own bound.
      const longest = Math.max(...lines.map((line) => line.length));
      expect(longest, said).toBeLessThanOrEqual(isMacro ? 110 : 256);
      // N numbers of one to five digits (NISTIR 6556, 3.3.1).
      for (const number of numbersIn(lines, /^\s*n(\d+)/gi)) expect(number, said).toBeLessThanOrEqual(99_999);
      if (!isMacro) continue;
      // Program numbers of four digits; alarms of #3000 up to 200; locals up to #33 (common practice, no source).
      for (const number of numbersIn(lines, /^o(\d+)/gi)) {
        expect(number, said).toBeLessThanOrEqual(9999);
        expect(usedLabels.has(number), said).toBe(false);
      }
      for (const number of numbersIn(lines, /#3000=(\d+)/g)) {
        expect(number, said).toBeGreaterThanOrEqual(100);
        expect(number, said).toBeLessThanOrEqual(200);
      }
      const own = numbersIn(lines, /^(?:n\d+ )?#(\d{1,3})=/g);
      for (const number of own) {
        const isLocal = each.form === 'subroutine' && number <= 33;
        expect(isLocal || (number >= 100 && number <= 199), `${said} #${number}`).toBe(true);
        expect(usedParameters.has(`#${number}`), `${said} #${number}`).toBe(false);
      }
      const labels = numbersIn(lines, /goto (\d+)/gi);
      for (const label of labels) {
        expect(usedLabels.has(label), said).toBe(false);
        expect(lines.filter((line) => new RegExp(`^n${label} `, 'i').test(line))).toHaveLength(1);
      }
    }
  });
});

test('every routine has a number and a name of its own', () => {
  const numbers = routines.map(({ subroutine }) => subroutine.number);
  const names = routines.map(({ subroutine }) => subroutine.name);
  expect(new Set(numbers).size).toBe(routines.length);
  expect(new Set(names).size).toBe(routines.length);
  // From 8000 on a control may lock programs against editing, from 9000 on they are the builder's (common practice, no source).
  for (const number of numbers) expect(number > 8000 && number < 9000).toBe(true);
});
