import { expect, test } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import { hover } from '../../server/editor/hover.ts';
import { capable, clientOf, openProgram } from './openProgram.ts';

const calibrated = {
  probe: {
    tipDiameter: 6,
    repeatability: 0.001,
    runout: 0,
    overtravel: { lateral: 5 },
    calibration: {
      date: '2025-03-14',
      effectiveDiameter: 5.98,
      expandedUncertainty: 0.002,
      feed: 60,
      harmonics: [{ order: 3, cosine: 0.003, sine: 0 }],
    },
  },
  machine: {
    tripLatency: 0.001,
    latchPeriod: 0,
    resolution: 0,
    positioningUncertainty: 0,
    reactionTime: 0.01,
  },
};

function textAt(marked: string, profile?: object | string, client = capable): string {
  const { program, caret } = openProgram(marked, profile);
  return (hover(program, caret, client)?.contents as MarkupContent | undefined)?.value ?? '';
}

const lines = (text: string) => text.split('\n').filter((line) => line !== '');

// By hand from error-model.md sections 1, 4 and 5. X−: r = 2.99 + 0.003·cos 540° = 2.987; D/2 − r = 3 µm;
// u² = 1² + 0.5² µm², U = 1.95996·1.11803 = 2.1913 µm; v = 1 mm/s: stop 0.01 + 1/200 = 0.015 mm.
test('a touch: verdict first, then tolerances, the stop, and where each number comes from', () => {
  const text = textAt('G21 G90 G94\nG0 X0\n|G38.2 X-10 F60\nM2', calibrated);
  const [verdict, tolerances, stop] = lines(text);
  expect(verdict).toBe('**G38.2 X−: up to 5.2 µm wrong** — bias +3.0 µm, ±2.2 µm');
  expect(tolerances).toBe(
    'Good for tolerances of ±0.052 mm or wider (10:1); ±0.021 mm at 4:1; over ±0.006 mm inside of a guard band of U.',
  );
  expect(stop).toContain('Stops 0.015 mm after the trip; 2.500 mm allowed = 5.000 mm');
  expect(stop).toContain('(`probe.overtravel.lateral`, profile)');
  expect(text).toContain('| effective radius, true | 2.987 mm | `probe.calibration`, 2025-03-14 |');
  expect(text).toContain('| radius used | 2.990 mm | half of `probe.calibration.effectiveDiameter` |');
  expect(text).toContain('| repeatability | 1.0 µm | `probe.repeatability`, profile |');
  expect(text).toContain('| effective radius | 0.5 µm | `probe.calibration.expandedUncertainty`, profile |');
  expect(text).toContain('| **U** | **±2.2 µm** | k = 1.96, 95 % |');
  expect(text).toMatch(/\*\*G38\.2\*\* — [\s\S]*In force here: `G21` · `G90`/);
});

test('the same touch in an inch program is told in inches, with the profile in millimetres', () => {
  const text = textAt('G20 G90 G94\nG0 X0\n|G38.2 X-0.4 F2.3622047\nM2', calibrated);
  // 3.0 µm and 2.19 µm over 25.4.
  expect(lines(text)[0]).toBe('**G38.2 X−: up to 0.00020 in wrong** — bias +0.00012 in, ±0.00009 in');
  expect(text).toContain('| feed | 2.36 in/min | line 3 |');
});

test('the picture is drawn for a client that draws it, and marks the direction', () => {
  const marked = 'G21 G90 G94\nG0 X0 Y0\n|G38.2 Y10 F60\nM2';
  const data = /data:image\/svg\+xml;base64,([A-Za-z0-9+/=]+)\)/.exec(textAt(marked, calibrated))?.[1] ?? '';
  const svg = Buffer.from(data, 'base64').toString('utf8');
  expect(svg).toMatch(/^<svg .*<\/svg>$/);
  expect(svg).toContain('class="mark"');
  expect(textAt(marked, calibrated, clientOf({}))).not.toContain('data:image');
});

test('a client without Markdown gets the same as plain text', () => {
  const plain = clientOf({}, { textDocument: { hover: { contentFormat: ['plaintext'] } } });
  const text = textAt('G21 G90 G94\nG0 X0\n|G38.2 X-10 F60\nM2', calibrated, plain);
  expect(lines(text)[0]).toBe('G38.2 X−: up to 5.2 µm wrong — bias +3.0 µm, ±2.2 µm');
  expect(text).not.toMatch(/[*`|]/);
  expect(text).toMatch(/^repeatability +1\.0 µm +probe\.repeatability, profile$/m);
});

test('a touch too fast for the probe says so in its stop', () => {
  const text = textAt('G21 G90 G94\nG0 X0\n|G38.2 X-10 F3000\nM2', calibrated);
  expect(text).toMatch(/Stops \d+\.\d+ mm after the trip; .*\*\*too far\*\*/);
});

test('without a calibration the numbers are called predicted', () => {
  const text = textAt('G21 G90 G94\nG0 X0\n|G38.2 X-10 F60\nM2');
  expect(text).toContain('predicted, not calibrated');
  expect(text).toContain('built-in value');
});

test('a profile with a typo: the hover says on what its numbers rest', () => {
  const text = textAt('G21 G90 G94\nG0 X0\n|G38.2 X-10 F60\nM2', { probe: { tipDiametre: 6 } });
  expect(text).toContain('The profile can’t be used as it stands');
});

test('a touch in a routine called in two directions lists both', () => {
  const program = [
    'o1 sub',
    '|G38.2 X#1 F60',
    'G0 X0',
    'o1 endsub',
    'G21 G90 G94',
    'G0 X0',
    'o1 call [10]',
    'o1 call [-10]',
    'M2',
  ];
  const text = textAt(program.join('\n'), calibrated);
  expect(text).toContain('Reached in 2 ways; shown above is the worst.');
  expect(text).toContain('| 7 | X+ |');
  expect(text).toContain('| 8 | X− |');
});

// Bore centre by error-model.md section 4: bias ½·(r(180°) − r(0°)) = −a_3 = −3 µm; u = 1·√(¼+¼) µm, U = 1.386 µm.
test('a datum: the touches it is made of, and what cancels in it', () => {
  const program = [
    'G21 G90 G94 G54',
    'G0 X0',
    'G38.2 X-10 F60',
    '#1=#5061',
    'G0 X0',
    'G38.2 X10 F60',
    '#2=#5061',
    'G0 X0',
    'G10 L2 P1 |X[[#1+#2]/2]',
    'M2',
  ];
  const text = textAt(program.join('\n'), calibrated);
  expect(lines(text)[0]).toBe('**G54.x: up to 4.4 µm wrong** — bias −3.0 µm along the + axis, ±1.4 µm');
  expect(text).toContain('| [line 3](file:///job/part.ngc#L3) | G38.2 X− | X | +0.5 | − | latched |');
  expect(text).toContain('No tip diameter enters it.');
  expect(text).toContain(
    'What would make it better, each alone:\n\n- take off the known bias of −3.0 µm: up to 1.4 µm wrong, good for ±0.014 mm (10:1)\n- ',
  );
});

test('on the code of a block that writes datums all of them stand, and what the code does', () => {
  const program = [
    'G21 G90 G94 G54',
    'G0 X0 Y0',
    'G38.2 X-10 F60',
    '#1=#5061',
    'G0 X0',
    'G38.2 Y-10 F60',
    '#2=#5062',
    'G0 Y0',
    '|G10 L2 P1 X[#1-2.99] Y[#2-2.99]',
    'M2',
  ];
  const text = textAt(program.join('\n'), calibrated);
  expect(lines(text)[0]).toMatch(/^\*\*G54\.[xy]: up to /);
  expect(text).toMatch(/^\| G54\.[xy] \| \d/m);
  expect(text).toContain('**G10** — set data');
});

test.each([
  ['G21 |G90 G94', /^\*\*G90\*\* — absolute/],
  ['G21 G90 G94\nG0 |X10', /along X, mm: to this work coordinate/],
  ['G20 G91 G94\nG0 |X10', /along X, in: by this much/],
  ['G21 G90 G94\nG53 G0 |Z0', /along Z, mm: to this machine coordinate/],
  ['G21 G90 G94 G1 X1 |F200', /feed, mm\/min/],
  ['G4 |P2', /dwell/],
  ['G10 L2 |P1 X0', /work offset/],
  [
    '#<edge> = 5\n#<far> = [|#<edge> + 1]',
    /`#<edge>` — local to its routine[\s\S]*Before this block it is `5`/,
  ],
  ['#1 = |#5070', /1 after a touch that met the surface[\s\S]*The control sets it/],
  ['o1 |if [#1 GT 2]\no1 endif', /\*\*if\*\*/],
  ['(|probewright: allow syntax - as the control likes it)\nG0', /Allows `syntax`/],
  ['|G777', /no code of this dialect/],
  ['|M3 S100', /^\*\*M3\*\*/],
  ['|G[#1]', /depends on a value/],
])('a word: %s', (marked, expected) => {
  expect(textAt(marked)).toMatch(expected);
});

test.each(['|', 'G0 X0 |  Y1', 'X0\n|', '(just a |remark)'])('nothing to say at %j', (marked) => {
  const { program, caret } = openProgram(marked);
  expect(hover(program, caret, capable)).toBeNull();
});

test('the text of a program is not taken for Markdown', () => {
  const { program } = openProgram('#<a`b|c> = 1');
  const at = { line: 0, character: 3 };
  const value = (hover(program, at, capable)?.contents as MarkupContent | undefined)?.value ?? '';
  expect(value).toMatch(/^``#<a`b\|?c>`` — /);
});

test('in a macro call F is an argument; a program number and a first block claim no modes', () => {
  const call = textAt('G21 G90 G94\nG65 P2001 |F50.\nM30\nO2001\nG31 Z-10. F#9\nM99');
  expect(call).toContain('`F50.` — argument of the call');
  const modal = textAt('G21 G90 G94\nG66 P2001 |F50.\nX1.\nG67\nM30\nO2001\nG31 Z-10. F#9\nM99');
  expect(modal).toContain('`F50.` — argument of the call');
  const title = textAt('G21 G90 G94\nG65 P2001 F50.\nM30\n|O2001\nG31 Z-10. F#9\nM99');
  expect(title).toBe('`O2001` — number of the program');
  expect(textAt('|G21 G90\nG31 Z-10.\nM30')).not.toContain('In force');
});

test.each([
  ['|N10 G0 X1', /^`N10` — number of the block/],
  ['O1\nIF[#1EQ0]GOTO20\n|N20 M30', /Jumped to from line 2\./],
  ['|/G0 X1', /^`\/` — skipped while the block-delete switch/],
  ['O1\n|/3 G31 Z1', /block-delete switch 3/],
  ['|%\nG0 X1', /begins or ends/],
  ['#1=4\n#2=[|SQRT[#1]]', /^`SQRT\[value\]` — square root\n\nHere it is `2`/],
  ['#2=[ATAN|[1]/[1]]', null],
  ['#1=7\no1 if [#1 |GT 5]\no1 endif', /^`GT` — 1 where left is greater[\s\S]*Here it is `1`/],
  ['#2=[1 |+ #777]', /^`\+` — left plus right$/],
  ['O1\n#101=2.5\n|DPRNT[X#101[53]]\nIF[1EQ1]GOTO1', /^\*\*DPRNT\*\* — prints[\s\S]*\| `#101` \| 2\.5 \|/],
  [
    '#<a>=1\n(|DEBUG, at #<a> and #<b>)',
    /A comment that acts[\s\S]*\| `#<a>` \| 1 \|[\s\S]*known only at the machine/,
  ],
  ['(|MSG, turn the part)', /shows its text to the operator/],
  ['(|probewright: dialect macro)\nG0', /read as `macro`/],
  ['#1=2\nG21 G90 G94\nG1 |X[#1*3] F#1', /along X, mm: to this work coordinate; here `6`/],
  ['G20\nG10 L2 P1 |X1', /value of the offset along this axis, in/],
  ['G20 G90 G94 G95\nG1 X1 |F0.01', /feed, in per turn/],
  ['G2 X1 |I5', /centre of the arc, from its start, mm/],
  ['G4 |P2', /dwell time, seconds/],
  ['M66 |L3', /what is waited for/],
  ['M1 |L3', /hangs on the code/],
  ['M66 P0 L3 |Q5', /seconds to wait at most(?!, mm)/],
  ['G21 G90 G94\nG0 |@10 ^45', /^`@10` — polar position: distance from the work origin, mm: to this much/],
  ['G21 G91 G94\nG0 @10 ^|#1', /^`#1` — local/],
  ['G21 G91 G94\nG0 @10 |^45', /angle from the X axis, degrees: more by this much/],
  ['|G68 X0 Y0 R30', /^`G68` — no code of this dialect; in the macro dialect: coordinate rotation on\./],
  ['|G51 P2', /in the macro dialect: scaling on\./],
  ['O1\n|G38.2 Z1\nGOTO1', /in the rs274ngc dialect: probe towards, alarm\./],
  ['|O10\n#<a>=1', /^`O10` — number of the program in the macro dialect/],
  ['O1\nG1 X1. |,C2.\nGOTO1', /chamfer/],
  ['O1\nG1 X1.|,R2.\nGOTO1', /rounding/],
  ['O1\nG65 P9001 |M2.', /^`M2\.` — argument of the call/],
  ['O1\n|M8 G65 P9001', /^\*\*M8\*\*/],
  ['O1\nG65 P9001 |L2', /how many times it is called/],
])('every word has something to say: %s', (marked, expected) => {
  if (expected === null) expect(textAt(marked)).not.toContain('Here it is');
  else expect(textAt(marked)).toMatch(expected);
});
