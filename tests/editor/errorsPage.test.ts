import { expect, test } from 'vitest';
import { errorsPage } from '../../server/editor/errorsPage.ts';
import { openProgram, uri } from './openProgram.ts';

/** Only repeatability is uncertain: U of a bore's centre is 1.96·0.001/√2 = 0.001386 mm, of its diameter 1.96·0.001·√2. */
const profile = {
  probe: {
    tipDiameter: 6,
    repeatability: 0.001,
    runout: 0,
    calibration: { effectiveDiameter: 5.96, expandedUncertainty: 0, feed: 60, harmonics: [] },
  },
  machine: { tripLatency: 0, latchPeriod: 0, resolution: 0, positioningUncertainty: 0 },
};

const bore = `G21 G90 G94 G54
G0 X0 Y0
G38.2 X20 F60
#<right> = #5061
G0 X0
G38.2 X-20
#<left> = #5061
G0 X0
#<diameter> = [#<right> - #<left> + 6]
G10 L2 P1 X[#5221 + [#<right> + #<left>] / 2]
M2
`;

function pageOf(text: string, tolerance: string | null, of: object = profile): string {
  const result = errorsPage(openProgram(text, of).program, { uri, tolerance });
  if (result.kind === 'refused') throw new Error(result.message);
  expect(result.page.title).toBe('Errors to expect of part.ngc');
  return result.page.markdown;
}

test('without a tolerance: each datum, each result and each touch, with its budget as a picture', () => {
  const page = pageOf(bore, null);
  expect(page).toContain('## `G54.x`, line 10');
  expect(page).toContain('## `#<diameter>`, line 9');
  expect(page).toContain('**G54.x: up to 1.4 µm wrong**');
  // The nominal diameter in it: 40 µm too large.
  expect(page).toContain('**#<diameter>: up to 42.8 µm wrong**');
  expect(page.match(/data:image\/svg\+xml;base64,/g)).toHaveLength(2);
  expect(page).toContain('| 3 | G38.2 X+ | 2.0 µm | 0.0 µm | ±2.0 µm | 60 mm/min |');
  expect(page).not.toContain('| tolerance |');
  expect(page).toContain('What would make it better, each alone:');
  // A preview of Markdown shows a link to file: as its source.
  expect(page).toContain('| line 3 | G38.2 X+ | X | +0.5 |');
  expect(page).not.toContain('](file:');
});

test('a tolerance: whether it can be decided, where values are accepted, what would have to change', () => {
  const page = pageOf(bore, ' 0.01 ');
  const [result = '', datum = ''] = page.split('## `G54.x`');
  // 10 µm over 1.386 µm.
  expect(datum).toContain('| tolerance | ±10.0 µm: can be decided at 4:1, 7.2 times the expected error |');
  expect(datum).toContain('| accept | within ±8.6 µm once the bias is off (guard band 1.4 µm = U)');
  expect(datum).toContain('touch 2 times in each place and use the mean: 1.0 µm, enough for 10:1');
  expect(page).not.toContain('What would make it better');
  expect(result).toContain('| tolerance | ±10.0 µm: cannot be decided, 0.2 times the expected error |');
  expect(result).toContain('put the effective diameter 5.960 mm into the program: 2.8 µm');
});

test('a tolerance in the unit that is written, else in that of the profile', () => {
  expect(pageOf(bore, '0.001in')).toContain('| tolerance | ±25.4 µm: can be decided at 10:1');
  expect(pageOf(bore, '0.001', { ...profile, units: 'inch', probe: {}, machine: {} })).toContain(
    '| tolerance | ±25.4 µm',
  );
});

test('what is no tolerance, and no program, is refused in words', () => {
  const { program } = openProgram(bore, profile);
  for (const tolerance of ['fine', '0', '-0.01', '0,01', '1e9999'])
    expect(errorsPage(program, { uri, tolerance })).toEqual({
      kind: 'refused',
      message: `${tolerance} is no tolerance: half of its width, such as 0.01, 0.01mm or 0.0004in.`,
    });
  expect(errorsPage(null, { uri, tolerance: null }).kind).toBe('refused');
});

test('a program that touches nothing says so', () => {
  expect(pageOf('G21 G90\nG0 X0\nM2\n', '0.01')).toContain('No datum is written from a touch');
});
