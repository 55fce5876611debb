import { expect, test } from 'vitest';
import { checkText } from '../../server/report/checkText.ts';
import { styleFor } from '../../server/report/style.ts';
import { assumed, cleanProgram, sampleProgram, written } from './sampleProgram.ts';

const plain = styleFor(false);

test('each finding with its place, lines, related place, fix and rule; a summary at the end', () => {
  expect(written(checkText(plain, 80))).toBe(
    `jobs/left, edge:1.ngc (rs274ngc)

  2:1      error  no-retract-after-trip
    The next motion goes 5 mm further in: 100 % of it, after the trip.
    2 | G38.2 X-20 F40
      | ^^^^^
    3 | G1 X-25
      | ------- the next motion
    fix in the editor: Insert a retract

  4:2      warning  mode-assumed
    Nothing before says <G94> & "per minute".
    4 |  G38.3 Z-5 (\u{1f600} "a" & <b>)
      |  ^^^^^
    --fix: Say G94

  5:1      info  unreachable-block
    No path gets here.
    5 | M2
      | ^^

1 error, 1 warning, 1 note in 2 programs, 2 findings allowed by a comment. \`probewright explain RULE\` says why, and what to write instead.
`,
  );
});

test('nothing found is said as what it is', () => {
  const none = { error: 0, warning: 0, info: 0, suppressed: 0, known: 0, programs: 1 };
  expect(written(checkText(plain, 80), [cleanProgram], none)).toMatch(/^1 program checked: nothing found\. /);
});

test('no byte of a program or path can steer the terminal', () => {
  const hostile = '\u001b[2J\u009b1mG1\u202e';
  const program = { ...sampleProgram, path: `${hostile}.ngc`, findings: [assumed], line: () => hostile };
  expect(written(checkText(plain, 80), [program])).not.toMatch(/[\u001b\u009b\u202e]/);
  expect(written(checkText(styleFor(true), 80), [program])).not.toMatch(/\u001b\[2J|\u009b|\u202e/);
});

test('colour is on only where it is asked for', () => {
  expect(written(checkText(styleFor(true), 80))).toContain('\u001b[31m');
  expect(written(checkText(plain, 80))).not.toContain('\u001b');
});

test('a rule that fires thousands of times is counted after the first twenty', () => {
  const findings = Array.from({ length: 5000 }, (_, line) => ({
    ...assumed,
    place: { line, start: 0, end: 1 },
  }));
  const text = written(checkText(plain, 80), [{ ...sampleProgram, findings, line: () => 'G1' }]);
  expect(text.match(/^ {2}\d+:1 /gm)).toHaveLength(20);
  expect(text).toContain('and 4980 more of mode-assumed in this program');
});
