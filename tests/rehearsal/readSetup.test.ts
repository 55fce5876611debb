import Ajv from 'ajv/dist/2020.js';
import { describe, expect, test } from 'vitest';
import { setupSchema } from '../../server/part/setupDefinition.ts';
import { readSetup } from '../../server/rehearsal/readSetup.ts';

const first = (text: string) => readSetup(text).problems[0];

describe('a setup', () => {
  test('in inches is read to mm; comments and trailing commas are allowed', () => {
    const { setup } = readSetup(`{ // of the vice
      "units": "inch", "start": [1, 2, 3], "tool": 4, "tools": { "4": { "length": 5 } },
      "part": [ { "cut": "bore", "center": [1, 1], "diameter": 2, "top": 0, "depth": 1 }, ],
      "expect": { "G54.x": { "value": 1, "tolerance": 0.001 } }, "parameters": { "#100": 4.5 },
    }`);
    expect(setup?.start).toEqual([25.4, 50.8, expect.closeTo(76.2, 12)]);
    expect(setup?.solids[0]).toMatchObject({ role: 'cut', outline: { radius: 25.4 }, bottom: -25.4 });
    expect(setup?.tools.get(4)?.length).toBe(127);
    expect(setup?.expect.get('G54.x')?.value).toBe(25.4);
    expect(setup?.parameters.get('#100')).toBe(4.5);
  });

  test.each([
    ['a typo', '{ "start": [0,0,0],\n "unis": "mm" }', 'unis', 'Did you mean "units"', 1],
    ['no start', '{}', 'start', 'is missing', 0],
    ['a place of two', '{ "start": [0, 0] }', 'start', 'a list of 3', 0],
    ['a number as text', '{ "start": [0, "1", 0] }', 'start[1]', 'must be a number', 0],
    ['a length beyond any machine', '{ "start": [0, 0, 1e300] }', 'start[2]', 'at most 1000000', 0],
    ['too large a number', '{ "start": [0, 0, 1e999] }', 'start[2]', 'too large', 0],
    ['neither added nor cut', '{ "start": [0,0,0], "part": [{}] }', 'part[0]', 'neither', 0],
    [
      'a bore without depth',
      '{ "start": [0,0,0], "part": [{ "cut": "bore", "center": [0,0], "diameter": 2, "top": 0 }] }',
      'part[0]',
      'lacks "depth"',
      0,
    ],
    [
      'a block inside out',
      '{ "start": [0,0,0], "part": [{ "add": "block", "min": [0,0,0], "max": [1,-1,1] }] }',
      'part[0].max',
      'its Y',
      0,
    ],
    [
      'a turned cylinder',
      '{ "start": [0,0,0], "part": [{ "add": "cylinder", "center": [0,0], "diameter": 2, "top": 0, "depth": 1, "rotation": 3 }] }',
      'part[0].rotation',
      'a cylinder has none',
      0,
    ],
    [
      'a tool that the table lacks',
      '{ "start": [0,0,0], "tool": 3, "tools": {} }',
      'tool',
      'not in tools',
      0,
    ],
    [
      'a work offset that there is not',
      '{ "start": [0,0,0], "workOffsets": { "G99": [0,0,0] } }',
      'workOffsets.G99',
      'no such key',
      0,
    ],
    [
      'a work offset beyond the last of G54.1',
      '{ "start": [0,0,0], "workOffsets": { "G54.1 P49": [0,0,0] } }',
      'workOffsets.G54.1 P49',
      'no such key',
      0,
    ],
    [
      'a part of more crossings than can be made ready',
      JSON.stringify({ start: [0, 0, 900], part: Array.from({ length: 200 }, stair) }),
      'part',
      'lie over each other 1333300 times',
      0,
    ],
    ['no JSON', '{ "start": ', '', 'Not JSON', 0],
    ['binary', '\0\u0001\u0002', '', 'This is no setup', 0],
  ])('%s is told with its key and place', (_, text, key, words, line) => {
    expect(first(text)).toMatchObject({ key, line });
    expect(first(text)?.message).toContain(words);
  });

  test('the schema accepts what is read and refuses an unknown key', () => {
    const accepts = new Ajv({ strict: false }).compile(setupSchema());
    expect(accepts({ start: [0, 0, 0], part: [{ add: 'block', min: [0, 0, 0], max: [1, 1, 1] }] })).toBe(
      true,
    );
    expect(accepts({ start: [0, 0, 0], parts: [] })).toBe(false);
  });

  test('every key is explained in the schema', () => {
    const { properties } = setupSchema() as { properties: Record<string, { description?: string }> };
    for (const [key, entry] of Object.entries(properties)) expect(entry.description, key).toBeTruthy();
  });
});

function stair(_: unknown, index: number): object {
  return { add: 'block', min: [index, 0, -30], max: [200, 50, index] };
}

test('a plate with many holes is no crowd', () => {
  const hole = (_: unknown, index: number) => ({
    cut: 'bore',
    center: [60 * (index % 14), 60 * Math.floor(index / 14)],
    diameter: 20,
    top: 0,
    depth: 20,
  });
  const plate = { add: 'block', min: [-50, -50, -30], max: [900, 900, 0] };
  const part = [plate, ...Array.from({ length: 199 }, hole)];
  expect(readSetup(JSON.stringify({ start: [0, 0, 50], part })).setup?.solids).toHaveLength(200);
});
