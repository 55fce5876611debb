import { expect, test } from 'vitest';
import { ran } from './fakeTerminal.ts';

const caller = 'G21 G90 G94\nG0 X0\no<edge> call [20]\nG10 L2 P1 X#<_value>\nG0 X-5\nM2\n';
const edge = 'o<edge> sub\nG91 G38.2 X#1 F50\nG90\no<edge> endsub [#5061]\nM2\n';

test('check follows a call into the file beside the program, and says nothing of that file there', async () => {
  const further = 'o<up> sub\nG1 Z-12 F50\no<up> endsub\n';
  const program = 'G21 G90 G94\nG0 Z5\nG38.2 Z-10 F50\no<up> call\nM2\n';
  const files = { '/shop/part.ngc': program, '/shop/up.ngc': further };
  const { out, status } = await ran(['check', 'part.ngc', '--format', 'json'], { files });
  const { findings } = JSON.parse(out).files[0];
  expect(
    findings.map(({ rule, range }: { rule: string; range: { start: { line: number } } }) => [
      rule,
      range.start.line,
    ]),
  ).toEqual([['no-retract-after-trip', 3]]);
  expect(status).toBe(1);
  const elsewhere = { '/shop/part.ngc': program, '/other/up.ngc': further };
  expect((await ran(['check', 'part.ngc'], { files: elsewhere })).status).toBe(0);
});

test('error names the called file whose touch makes a datum', async () => {
  const files = { '/shop/part.ngc': caller, '/shop/lib/none.ngc': '', '/shop/edge.ngc': edge };
  const { out } = await ran(['error', 'part.ngc', '--format', 'json'], { files });
  const [file] = JSON.parse(out).files;
  expect(file.touches).toMatchObject([{ file: 'edge.ngc', line: 2, code: 'G38.2', axis: 'x' }]);
  expect(file.datums).toMatchObject([
    { line: 4, target: 'G54.x', terms: [{ touchFile: 'edge.ngc', touchLine: 2 }] },
  ]);
  expect(file.datums[0].file).toBeUndefined();
  const text = (await ran(['error', 'part.ngc'], { files })).out;
  expect(text).toContain('in edge.ngc  called from line 3');
  expect(text).toContain('of line 2 of edge.ngc');
});

test('error says which file it did not find, and why one was not followed', async () => {
  const reasons = async (files: Record<string, string>) => {
    const { out } = await ran(['error', 'part.ngc', '--format', 'json'], { files });
    return JSON.parse(out).files[0].notKnown?.map(({ reason }: { reason: string }) => reason);
  };
  const touching = `G38.2 Z-5 F50\nG0 Z5\n${caller}`;
  expect(await reasons({ '/shop/part.ngc': touching })).toEqual([
    expect.stringContaining('not at hand (edge.ngc)'),
  ]);
  expect(await reasons({ '/shop/part.ngc': touching, '/shop/edge.ngc': '\0\0' })).toEqual([
    expect.stringContaining('edge.ngc, which is too large or no text'),
  ]);
});
