import { describe, expect, test } from 'vitest';
import { ran } from './fakeTerminal.ts';

/** After the touch the next move goes further in: one error. */
const further = 'N10 G21 G90 G94\nN20 G0 Z20\nN30 G38.2 Z-10 F50\nN40 G1 Z-12\nN50 G0 Z20\nN60 M2\n';
const twice = 'G21 G90 G94\nG0 X1 X2\nG0 X1 X2\nM2\n';
const files = { '/shop/jobs/further.ngc': further, '/shop/jobs/twice.ngc': twice };

async function written(extra: Record<string, string> = {}) {
  const first = await ran(['check', 'jobs', '--write-baseline', 'known.json'], { files });
  return { first, files: { ...files, ...extra, '/shop/known.json': String(first.file('/shop/known.json')) } };
}

describe('a baseline', () => {
  test('is written of all that is found, in a fixed order, and nothing else is told', async () => {
    const { first } = await written();
    expect(first).toMatchObject({ status: 0, out: '' });
    expect(first.error).toBe('probewright: known.json: 3 findings written down.\n');
    expect(JSON.parse(String(first.file('/shop/known.json')))).toEqual({
      version: 1,
      findings: [
        { path: 'jobs/further.ngc', rule: 'no-retract-after-trip', block: 'G38.2 Z-10 F50', count: 1 },
        { path: 'jobs/twice.ngc', rule: 'repeated-word', block: 'G0 X1 X2', count: 2 },
      ],
    });
  });

  test('leaves out what it holds', async () => {
    const { files: known } = await written();
    const result = await ran(['check', 'jobs', '--baseline', 'known.json'], { files: known });
    expect(result).toMatchObject({ status: 0, error: '' });
    expect(result.out).toContain('3 findings held by the baseline');
    const json = await ran(['check', 'jobs', '--baseline', 'known.json', '--format', 'json'], {
      files: known,
    });
    expect(JSON.parse(json.out).summary).toEqual({ error: 0, warning: 0, info: 0, suppressed: 0 });
  });

  test('holds when lines come, are renumbered and indented; what is new is reported', async () => {
    const { files: known } = await written({
      '/shop/jobs/further.ngc': further.replace('N30', '(the edge)\n\nN35  '),
      '/shop/jobs/twice.ngc': twice.replace('M2', 'G0 X1 X2\nG0 Y1 Y2\nM2'),
    });
    const result = await ran(['check', 'jobs', '--baseline', 'known.json', '--format', 'json'], {
      files: known,
    });
    expect(result.status).toBe(1);
    const { files: checked } = JSON.parse(result.out);
    expect(checked.map(({ findings }: { findings: unknown[] }) => findings.length)).toEqual([0, 2]);
  });

  test('tells its stale entries, of what was mended and of what is gone, and of nothing that was not checked', async () => {
    const { files: known } = await written({ '/shop/jobs/twice.ngc': twice.replace('X1 X2', 'X1') });
    const mended = await ran(['check', 'jobs', '--baseline', 'known.json'], { files: known });
    expect(mended.status).toBe(0);
    expect(mended.error).toBe(
      'probewright: known.json: stale: jobs/twice.ngc: no repeated-word at "G0 X1 X2" any more.\n',
    );
    const other = await ran(['check', 'jobs/further.ngc', '--baseline', 'known.json'], { files: known });
    expect(other.error).toBe('');
    const { '/shop/jobs/twice.ngc': _, ...rest } = known;
    const gone = await ran(['check', 'jobs/further.ngc', '--baseline', 'known.json'], { files: rest });
    expect(gone.error).toContain('jobs/twice.ngc: no repeated-word at "G0 X1 X2" (2 times) any more.');
  });

  test.each([
    ['missing.json', undefined, 'missing.json: cannot be read'],
    ['known.json', 'G21', 'known.json: is no baseline'],
    ['known.json', '{"version":2,"findings":[]}', 'known.json: is no baseline'],
    ['known.json', '{"version":1,"findings":[{"path":"a"}]}', 'known.json: is no baseline'],
  ])('that can’t be used is refused: %s %s', async (name, text, told) => {
    const given = text === undefined ? files : { ...files, [`/shop/${name}`]: text };
    const result = await ran(['check', 'jobs', '--baseline', name], { files: given });
    expect(result.status).toBe(2);
    expect(result.error).toContain(told);
  });

  test('that can’t be written, or is asked for both ways, is refused', async () => {
    const locked = await ran(['check', 'jobs', '--write-baseline', 'locked/known.json'], { files });
    expect(locked).toMatchObject({ status: 2, error: expect.stringContaining('cannot be written') });
    const both = await ran(['check', 'jobs', '--baseline', 'a', '--write-baseline', 'b'], { files });
    expect(both).toMatchObject({ status: 2, error: expect.stringContaining('exclude each other') });
  });
});
