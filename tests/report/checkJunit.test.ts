import { expect, test } from 'vitest';
import { checkJunit } from '../../server/report/checkJunit.ts';
import { noted, sampleProgram, written } from './sampleProgram.ts';

test('a suite a program, a failed case an error or warning, a passed case where nothing was found', () => {
  const xml = written(checkJunit());
  expect(xml).toContain(
    '<testsuite name="jobs/left, edge:1.ngc" tests="3" failures="2" errors="0" skipped="0">',
  );
  expect(xml).toContain(
    '<testcase name="no-retract-after-trip at 2:1" classname="jobs/left, edge:1.ngc"><failure type="error"',
  );
  expect(xml).toContain('message="Nothing before says &lt;G94&gt; &amp; &quot;per minute&quot;."');
  expect(xml).toContain('<system-out>jobs/left, edge:1.ngc:5:1 info No path gets here.</system-out>');
  expect(xml).toContain('<testcase name="no findings" classname="jobs/bore.ngc"/>');
});

test('what XML does not allow is replaced', () => {
  const odd = { ...noted, message: 'a\u0001b\ufffec\ud800d\u{1f600}' };
  expect(written(checkJunit(), [{ ...sampleProgram, findings: [odd] }])).toContain(
    'a\ufffdb\ufffdc\ufffdd\u{1f600}',
  );
});
