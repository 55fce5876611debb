import { expect, test } from 'vitest';
import { ruleIds } from '../../server/checks/registry.ts';
import { ran } from './fakeTerminal.ts';

test('a page says what, why and what instead, with examples and a source', async () => {
  const { out, status } = await ran(['explain', 'no-retract-after-trip']);
  expect(status).toBe(0);
  expect(out).toMatch(/^# no-retract-after-trip: /);
  for (const part of ['## What happens at the machine', '## Instead', '```gcode', '## Source'])
    expect(out).toContain(part);
});

test.each(ruleIds)('%s has a page', async (id) => {
  expect(await ran(['explain', id])).toMatchObject({ status: 0, error: '' });
});

test('without a rule all are listed by severity, each on a line', async () => {
  const { out, status } = await ran(['explain']);
  expect(status).toBe(0);
  for (const id of ruleIds) expect(out).toMatch(new RegExp(`^  ${id} `, 'm'));
  expect(out.indexOf('error\n')).toBeLessThan(out.indexOf('warning\n'));
});

test('an unknown rule ends with 2, and the one that was meant is named', async () => {
  const near = await ran(['explain', 'no-retract-after-tripp']);
  expect(near).toMatchObject({ status: 2, out: '' });
  expect(near.error).toContain(
    'there is no rule "no-retract-after-tripp". Did you mean no-retract-after-trip?',
  );
  expect((await ran(['explain', 'zzzz'])).error).toContain('`probewright explain` lists the rules.');
});
