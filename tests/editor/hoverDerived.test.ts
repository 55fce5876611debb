import { expect, test } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import { hover } from '../../server/editor/hover.ts';
import { capable, clientOf, openProgram } from './openProgram.ts';

const calibrated = {
  probe: {
    tipDiameter: 6,
    repeatability: 0.001,
    runout: 0,
    calibration: {
      date: '2025-03-14',
      effectiveDiameter: 5.98,
      expandedUncertainty: 0.002,
      feed: 60,
      harmonics: [{ order: 3, cosine: 0.003, sine: 0 }],
    },
  },
  machine: { tripLatency: 0.001, latchPeriod: 0, resolution: 0, positioningUncertainty: 0 },
};

function textAt(lines: readonly string[], client = capable): string {
  const { program, caret } = openProgram(lines.join('\n'), calibrated);
  return (hover(program, caret, client)?.contents as MarkupContent | undefined)?.value ?? '';
}

const bore = {
  rs274ngc: [
    'G21 G90 G94 G54',
    'G0 X0',
    'G38.2 X-10 F60',
    '#<left> = #5061',
    'G0 X0',
    'G38.2 X10 F60',
    '#<right> = #5061',
    'G0 X0',
    '#<sum> = [#<left> + #<right>]',
    '#<xc> = [#<sum> / 2]',
    'G10 L2 P1 X[#5221 + #<xc>]',
    'M2',
  ],
  macro: [
    'G21 G90 G94 G54',
    'G0 X0',
    'G31 X-10. F60.',
    'IF[#5061LT-9.9]GOTO90',
    '#101=#5061',
    'G0 X0',
    'G31 X10. F60.',
    'IF[#5061GT9.9]GOTO90',
    '#102=#5061',
    'G0 X0',
    '#103=[#101+#102]/2.',
    'G10 L2 P1 X[#5221+#103]',
    'M30',
    'N90 #3000=1(NO WALL)',
  ],
};

/** The caret before this text, in the line that has it. */
function caretAt(lines: readonly string[], line: string, before: string): string[] {
  return lines.map((each) => (each === line ? each.replace(before, `|${before}`) : each));
}

// Bore centre by error-model.md section 4: bias ½·(r(180°) − r(0°)) = −a_3 = −3 µm; u = 1·√(¼+¼) µm, U = 1.386 µm.
const centre = 'up to 4.4 µm wrong** — bias −3.0 µm along the + axis, ±1.4 µm';
const link = (line: number) => `[line ${line}](file:///job/part.ngc#L${line})`;

test.each([
  ['where it is set', '#<xc> = [#<sum> / 2]'],
  ['where it is read', 'G10 L2 P1 X[#5221 + #<xc>]'],
])('rs274ngc: a centre %s shows its error and the tree of touches', (_, line) => {
  const program = line.startsWith('G10')
    ? bore.rs274ngc.flatMap((each) => (each.startsWith('G10') ? ['#<there> = |#<xc>', each] : [each]))
    : caretAt(bore.rs274ngc, line, '#<xc>');
  const text = textAt(program);
  expect(text).toMatch(/^\*\*#<xc>: /);
  expect(text.split('\n')[0]).toContain(centre);
  expect(text).toContain('No tip diameter enters it.');
  expect(text).toContain('| **U** | **±1.4 µm** |');
  expect(text).toContain(
    [
      `- \`#<xc> = [#<sum> / 2]\`, ${link(10)}`,
      `  - \`#<sum> = [#<left> + #<right>]\`, ${link(9)}`,
      `    - \`#<left> = #5061\`, ${link(4)}`,
      `      - G38.2 X−, ${link(3)}: X latched`,
      `    - \`#<right> = #5061\`, ${link(7)}`,
      `      - G38.2 X+, ${link(6)}: X latched`,
    ].join('\n'),
  );
  expect(text).toContain('`#<xc>` — local to its routine');
});

test('macro: a centre shows its error and the tree of touches', () => {
  const text = textAt(caretAt(bore.macro, '#103=[#101+#102]/2.', '#103'));
  expect(text.split('\n')[0]).toContain(`**#103: ${centre}`);
  expect(text).toContain(
    [
      `- \`#103=[#101+#102]/2.\`, ${link(11)}`,
      `  - \`#101=#5061\`, ${link(5)}`,
      `    - G31 X−, ${link(3)}: X latched`,
      `  - \`#102=#5061\`, ${link(9)}`,
      `    - G31 X+, ${link(7)}: X latched`,
    ].join('\n'),
  );
});

// A single edge: the effective diameter enters with ½, so its error does not cancel; bias D/2 − r(0°) = −3 µm.
test('a single edge says which diameter it is compensated with', () => {
  const program = ['G21 G90 G94 G54', 'G0 X0', 'G38.2 X10 F60', 'G0 X0', '|#<edge> = [#5061 + 2.99]', 'M2'];
  const text = textAt(program);
  expect(text).toMatch(/^\*\*#<edge>: up to \d/);
  expect(text).toContain('Tip diameter in it: 0.5 × 5.980 mm (the effective diameter).');
  expect(text).toContain(`- \`#<edge> = [#5061 + 2.99]\`, ${link(5)}\n  - G38.2 X+, ${link(3)}: X latched`);
});

test('where the axis stopped instead of where it latched is said in the tree', () => {
  const program = ['G21 G90 G94 G54', 'G0 X0', 'G38.2 X10 F60', '#<edge> = |#<_x>', '#<it> = |#<edge>', 'M2'];
  const text = textAt(program.map((line, at) => (at === 3 ? line.replace('|', '') : line)));
  expect(text).toContain(`G38.2 X+, ${link(3)}: X **where it stopped**`);
});

test('a parameter set twice is traced to the block that counts', () => {
  const program = [
    'G21 G90 G94 G54',
    'G0 X0',
    'G38.2 X10 F200',
    '#<edge> = #5061',
    'G0 X[#<edge> - 1]',
    'G38.2 X[#<edge> + 1] F60',
    '#<edge> = #5061',
    'G0 X0',
    '#<place> = [|#<edge> + 2.99]',
    'M2',
  ];
  const text = textAt(program);
  expect(text).toContain(`- \`#<edge> = #5061\`, ${link(7)}\n  - G38.2 X+, ${link(6)}: X latched`);
  expect(text).not.toContain(link(3));
});

test('called in two ways, a result of the routine has a tree for each', () => {
  const program = [
    'o1 sub',
    '  G38.2 X#1 F60',
    '  |#<_edge> = #5061',
    '  G0 X0',
    'o1 endsub',
    'G21 G90 G94 G54',
    'G0 X0',
    'o1 call [10]',
    'o1 call [-10]',
    'M2',
  ];
  const text = textAt(program);
  expect(text).toContain(`G38.2 X+, ${link(2)}, called in line 8`);
  expect(text).toContain(`G38.2 X−, ${link(2)}, called in line 9`);
});

test('a client without Markdown gets the tree as plain text', () => {
  const plain = clientOf({}, { textDocument: { hover: { contentFormat: ['plaintext'] } } });
  const text = textAt(caretAt(bore.macro, '#103=[#101+#102]/2.', '#103'), plain);
  expect(text).toContain('- #103=[#101+#102]/2., line 11\n  - #101=#5061, line 5\n    - G31 X−, line 3');
  expect(text).not.toMatch(/[*`|]/);
});

test.each([
  ['that no touch enters', ['G21 G90 G94', '|#<far> = 5', 'G38.2 X10 F60', 'M2']],
  ['that the control sets', ['G21 G90 G94', 'G0 X0', 'G38.2 X10 F60', '#1 = |#5061', 'M2']],
])('a parameter %s has no tree', (_, program) => {
  expect(textAt(program)).not.toContain('It rests on');
});

test('an angle is shown in degrees, with its slopes as shares and what they rest on', () => {
  const lines = [
    'G21 G90 G94 G54',
    'G0 X10 Y-20',
    'G38.2 Y0 F60',
    '#<first> = #5062',
    'G0 Y-20',
    'G0 X90',
    'G38.2 Y0 F60',
    '#<second> = #5062',
    'G0 Y-20',
    '#<angle> = ATAN[#<second> - #<first>]/[80]',
    'G10 L2 P1 R#<ang|le>',
    'M2',
  ];
  const text = textAt(lines);
  // √2·0.001 mm over 80 mm, in degrees, times 1.96.
  expect(text).toContain('**#<angle>: up to 0.002° wrong** — bias 0°, ±0.002°');
  expect(text).toContain('It is no sum of touches');
  expect(text).toContain('−0.7162');
  expect(text).toMatch(/ATAN[^\n]*line 10[\s\S]*<second> = #5062[\s\S]*line 7/);
  expect(text).not.toContain('µm');
  expect(text).not.toContain('<svg');
});
