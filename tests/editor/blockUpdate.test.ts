import { describe, expect, test } from 'vitest';
import { ageActions, ageLenses, routineUpdate } from '../../server/editor/blockUpdate.ts';
import { agedBlocks } from '../../server/editor/writtenBlocks.ts';
import { routines, writeRoutine } from '../../server/routines/registry.ts';
import { fileProfile } from '../../server/workspace/fileProfile.ts';
import { everyCase } from '../routines/everyCase.ts';
import { clientOf, edited, openProgram, uri } from './openProgram.ts';

const calibrated = (effectiveDiameter: number, measuring = 40) => ({
  probe: {
    tipDiameter: 3,
    calibration: { date: '2026-11-01', effectiveDiameter, expandedUncertainty: 0.002, feed: measuring },
  },
  feeds: { measuring },
});
const [before, after] = [calibrated(2.97), calibrated(2.962)];
const profileOf = (profile: object) => fileProfile('file:///p.json', JSON.stringify(profile)).profile;

function written(
  { dialect, form, units, name }: Omit<ReturnType<typeof everyCase>[number], 'routine'>,
  profile: object = before,
): string {
  const routine = routines.find((each) => each.name === name);
  if (!routine) throw new Error(name);
  const options = { profile: profileOf(profile), dialect, form, units };
  const result = writeRoutine(routine, {}, options);
  if ('problems' in result) throw new Error(JSON.stringify(result.problems));
  return result.text;
}

const bore = { name: 'bore', dialect: 'rs274ngc', form: 'inline', units: 'mm' } as const;
const aged = (text: string, profile: object = after) => agedBlocks(openProgram(text, profile).program);

describe.each(everyCase(routines))('$name in $dialect, $form, $units', (each) => {
  const text = written(each);
  const around = [`G90 ${each.units === 'mm' ? 'G21' : 'G20'}\nG0 X0 Y0\n`, 'G0 Z90\nM30\n'].join(text);

  test('is not old under the profile that it was written for', () => {
    expect(aged(around, { ...before, dialect: each.dialect })).toEqual([]);
  });

  test('is brought up to date by one edit, which leaves nothing to do', () => {
    const profile = { ...calibrated(2.962, 30), dialect: each.dialect };
    const { program } = openProgram(around, profile);
    const [block, ...more] = agedBlocks(program);
    expect([block?.isEdited, block?.changes[0], more]).toEqual([false, 'other feeds', []]);
    const update = routineUpdate(program, block?.from ?? -1);
    const now = edited(around, update ? [update.edit] : []);
    expect(now).toBe(around.replace(text, written(each, profile)));
    expect(aged(now, profile)).toEqual([]);
  });
});

test('a new calibration is told over the routine, and offered where the cursor stands in it', () => {
  const { program } = openProgram(`G21 G90\n${written(bore)}M2\n`, after);
  const client = clientOf({ commands: ['probewright.bringUpToDate'] });
  expect(ageLenses(program, client).map(({ range, command }) => [range.start.line, command])).toEqual([
    [
      1,
      {
        title: 'Bore: the profile now gives another effective tip diameter. Bring it up to date',
        command: 'probewright.bringUpToDate',
        arguments: [uri, 1],
      },
    ],
  ]);
  const at = (line: number) => ({ start: { line, character: 0 }, end: { line, character: 0 } });
  expect(ageActions(program, at(0))).toEqual([]);
  const [action] = ageActions(program, at(30));
  expect(action?.title).toBe('Bring this bore up to date (another effective tip diameter)');
  const text = edited(program.source.text.toString(), action?.edit?.changes?.[uri] ?? []);
  expect(text).toContain('#<tip> = 2.962 ');
  expect(ageLenses(program, clientOf({}))[0]?.command?.command).toBe('');
});

test('what was changed by hand is said, and only lost on demand', () => {
  const text = written(bore).replace('G1 Z#<start_z> F', 'G1 Z[#<start_z> + 1] F');
  expect(aged(text, before)).toEqual([]);
  const { program } = openProgram(text, after);
  expect(agedBlocks(program)[0]?.isEdited).toBe(true);
  expect(ageLenses(program, clientOf({}))[0]?.command?.title).toBe(
    'Bore: changed by hand, and the profile now gives another effective tip diameter. Compare',
  );
  const all = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };
  expect(ageActions(program, all).map(({ title }) => title)).toEqual([
    'Write this bore anew: what was changed by hand in it is lost',
  ]);
});

test('blanks, letter case, N numbers and a result used below make it neither old nor edited', () => {
  const numbered = written(bore)
    .split('\n')
    .map((line, i) => (/^[GM#]/.test(line) ? `  n${10 * i + 10} ${line.toLowerCase()}` : line))
    .join('\n');
  const program = `${numbered}G0 X#<centre_x>\nM2\n`;
  expect(aged(program, before)).toEqual([]);
  expect(aged(program).map(({ isEdited }) => isEdited)).toEqual([false]);
});

test('two routines in one program are told apart', () => {
  const { program: first } = openProgram(written(bore), before);
  const second = written({ ...bore, name: 'surface' });
  const text = `${first.source.text.toString()}G0 Z50\n${second}M2\n`;
  expect(aged(text).map(({ routine }) => routine.name)).toEqual(['bore', 'surface']);
});

test.each([
  ['its last comment is gone', (text: string) => text.replace(/\(End of.*\n/, '')],
  ['its header is gone', (text: string) => text.replace(/^\(Bore.*\n/, '')],
  ['its inputs are gone', (text: string) => text.replace('Inputs:', 'Put in:')],
  ['it is of no routine that we have', (text: string) => text.replace('(Bore,', '(Bear,')],
])('nothing is said where %s', (_, change) => {
  expect(aged(change(written(bore)))).toEqual([]);
});

test('an input that the profile no longer allows is said', () => {
  const text = written(bore);
  const [block] = aged(text, { ...after, probe: { tipDiameter: 26, stylus: { stemDiameter: 20 } } });
  expect(block?.changes[0]).toMatch(/^it can't be written for the profile as it is: /);
});

test('a routine that grows takes no N number of the blocks behind it', () => {
  const each = { name: 'edge-angle', dialect: 'macro', form: 'inline', units: 'mm' } as const;
  let next = 10;
  const numbered = (line: string) => (/^[(%On]|^$/i.test(line) ? line : `N${next++} ${line}`);
  const head = ['G21 G90', 'G0 Z90.'].map(numbered);
  const block = written(each).trimEnd().split('\n');
  // Some of its blocks are gone, as if an older version had written fewer.
  const shorter = block.filter((line, i) => i < 40 || !/^#\d+=/.test(line)).map(numbered);
  const rest = Array.from({ length: 30 }, (_, i) => numbered(`G1 X${i}. F100.`));
  const { program } = openProgram([...head, ...shorter, ...rest, ''].join('\n'), {
    ...calibrated(2.962, 30),
    dialect: 'macro',
  });
  const update = routineUpdate(program, agedBlocks(program)[0]?.from ?? -1);
  const now = edited(program.source.text.toString(), update ? [update.edit] : []);
  expect(now.split('\n').length).toBeGreaterThan(program.source.lineCount);
  const numbers = [...now.matchAll(/^N(\d+) /gm)].map(([, number]) => number);
  expect(new Set(numbers).size).toBe(numbers.length);
});
