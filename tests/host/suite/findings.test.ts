import assert from 'node:assert/strict';
import { suite, suiteSetup, teardown, test } from 'mocha';
import { activateExtension, closeEditors, findings, openUntitled, ruleOf } from './demoWorkspace.ts';

const traversesFromTheTrip = ['G21 G90 G94', 'G38.2 Z-10 F100', 'G0 X50', 'M2', ''].join('\n');

suite('findings in the editor', () => {
  suiteSetup(activateExtension);
  teardown(closeEditors);

  test('a rapid move from the trip position is reported at its touch', async () => {
    const { document } = await openUntitled(traversesFromTheTrip);
    const found = await findings(document, (all) => all.some((d) => ruleOf(d) === 'no-retract-after-trip'));
    const finding = found.find((d) => ruleOf(d) === 'no-retract-after-trip');
    assert.equal(finding?.range.start.line, 1);
  });
});
