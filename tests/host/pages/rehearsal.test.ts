import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { rehearsalPage } from '../../../client/panels/rehearsalPage.ts';
import { rehearsalView } from '../../../server/editor/rehearsalView.ts';
import { plate, rehearsed } from '../../rehearsal/rehearsed.ts';
import { readingPages } from './readThrough.ts';

const read = readingPages();
const demo = (name: string) =>
  readFileSync(path.join(import.meta.dirname, '../../../client/walkthrough/demo', name), 'utf8');

const bore = rehearsed(demo('bore-centre.ngc'), parsed(demo('bore-centre.setup.json')), {
  profile: parsed(demo('probewright.json')),
});
const untouched = rehearsed('G21 G90\nG0 Z30\nM2\n', plate);
const pageOf = (rehearsal: typeof bore) =>
  rehearsalPage(
    rehearsalView(rehearsal, [], 'mm'),
    { program: 'bore-centre.ngc', setup: 'bore-centre.setup.json' },
    'once',
  );

describe.each(['dark', 'light'] as const)('in the %s theme', (theme) => {
  test.each([
    ['runs that pass, stop and go wrong', bore],
    ['a program that touches nothing', untouched],
  ])('the page of a rehearsal can be read: %s', async (_, rehearsal) => {
    expect(await read(pageOf(rehearsal), theme)).toEqual([]);
  });
});

test('the samples show outcomes of every grade', () => {
  const grades = new Set(rehearsalView(bore, [], 'mm').runs.map(({ outcome }) => outcome.grade));
  expect(grades).toEqual(new Set(['bad', 'stopped', 'right']));
});

/** A file of the demo with its comments taken out. */
function parsed(text: string): object {
  return JSON.parse(text.replace(/^\s*\/\/.*$/gm, ''));
}
