import { Buffer } from 'node:buffer';
import { describe, expect, test } from 'vitest';
import { ran } from './fakeTerminal.ts';

/** After the touch the next move goes further in: one error. */
const further = 'G21 G90 G94\nG0 Z20\nG38.2 Z-10 F50\nG1 Z-12\nG0 Z20\nM2\n';
const sound = 'G21 G90 G94\nG0 Z20\nG38.2 Z-10 F50\nG0 Z20\nM2\n';
/** The units come from whatever ran before: a warning. */
const assuming = 'G90 G94\nG0 Z20\nG38.2 Z-10 F50\nG0 Z20\nM2\n';
/** A comment that allows nothing: a note, with a fix that leaves motion as it is. */
const idle = 'G21 G90 G94 (probewright: allow probe-feed-unset - was needed once)\nG0 Z20\nM2\n';
const allowed = further.replace(
  'F50\n',
  'F50 (probewright: allow no-retract-after-trip - the part gives way)\n',
);

const files = {
  '/shop/further.ngc': further,
  '/shop/sound.ngc': sound,
  '/shop/assuming.ngc': assuming,
  '/shop/idle.ngc': idle,
  '/shop/allowed.ngc': allowed,
};

async function json(argv: readonly string[], situation = {}) {
  const result = await ran(['check', '--format', 'json', ...argv], { files, ...situation });
  return { ...result, report: JSON.parse(result.out) };
}

const rulesIn = (report: { files: { findings: { rule: string }[] }[] }) =>
  report.files.flatMap(({ findings }) => findings.map(({ rule }) => rule));

describe('exit status', () => {
  test.each([
    ['sound.ngc', [], 0],
    ['further.ngc', [], 1],
    ['assuming.ngc', [], 0],
    ['assuming.ngc', ['--strict'], 1],
    ['idle.ngc', ['--strict'], 0],
    ['allowed.ngc', ['--strict'], 0],
  ])('%s %j ends with %i', async (name, options, status) => {
    expect((await ran(['check', name, ...options], { files })).status).toBe(status);
  });

  test.each(['text', 'json', 'sarif', 'github', 'junit'])(
    'is the same in every format: %s',
    async (format) => {
      expect((await ran(['check', 'further.ngc', '--format', format], { files })).status).toBe(1);
      expect((await ran(['check', 'sound.ngc', '--format', format], { files })).status).toBe(0);
    },
  );
});

describe('JSON', () => {
  test('a finding stands where the text has it, 1-based and half-open', async () => {
    const { report } = await json(['further.ngc']);
    expect(Object.keys(report)).toEqual(['version', 'profile', 'files', 'summary']);
    expect(report).toMatchObject({ version: '9.8.7', profile: null });
    expect(Object.keys(report.files[0])).toEqual(['path', 'dialect', 'findings']);
    const [finding] = report.files[0].findings;
    expect(Object.keys(finding)).toEqual(['rule', 'severity', 'message', 'range', 'related', 'fixes']);
    expect(finding).toMatchObject({
      rule: 'no-retract-after-trip',
      severity: 'error',
      range: { start: { line: 3, column: 1 }, end: { line: 3, column: 6 } },
    });
    expect(report.summary).toEqual({ error: 1, warning: 0, info: 0, suppressed: 0 });
  });

  test('what a comment allows is counted and not shown', async () => {
    const { report } = await json(['allowed.ngc']);
    expect(rulesIn(report)).toEqual([]);
    expect(report.summary).toEqual({ error: 0, warning: 0, info: 0, suppressed: 1 });
  });

  test('several programs come in the order in which they were named, each once', async () => {
    const { report } = await json(['sound.ngc', 'further.ngc', './sound.ngc']);
    expect(report.files.map(({ path }: { path: string }) => path)).toEqual(['sound.ngc', 'further.ngc']);
  });

  test('columns count UTF-16 code units, whatever stands before: mark, tab, line ending', async () => {
    for (const ending of ['\n', '\r\n', '\r']) {
      const program = `\ufeff${further.replace('G38.2', '(\u{1f600})\tG38.2')}`.replaceAll('\n', ending);
      const { report } = await json(['odd.ngc'], { files: { '/shop/odd.ngc': program } });
      expect(report.files[0].findings[0].range).toEqual({
        start: { line: 3, column: 6 },
        end: { line: 3, column: 11 },
      });
    }
  });
});

describe('which programs', () => {
  const folder = {
    '/shop/jobs/b.ngc': sound,
    '/shop/jobs/a.NC': sound,
    '/shop/jobs/deep/er/c.tap': further,
    '/shop/jobs/notes.txt': 'not a program',
    '/shop/jobs/.old/d.ngc': further,
    '/shop/jobs/node_modules/e.ngc': further,
    '/shop/empty/notes.txt': 'x',
  };

  test('a folder is walked for the known endings, by name', async () => {
    const { report, status } = await json(['jobs'], { files: folder });
    expect(report.files.map(({ path }: { path: string }) => path)).toEqual([
      'jobs/a.NC',
      'jobs/b.ngc',
      'jobs/deep/er/c.tap',
    ]);
    expect(status).toBe(1);
  });

  test('a file that is named is read whatever its ending', async () => {
    expect((await json(['/shop/jobs/notes.txt'], { files: folder })).report.files).toHaveLength(1);
  });

  test.each([
    ['missing.ngc', 'missing.ngc: no such file or folder'],
    ['empty', 'empty: no program in this folder. Known endings: .ngc'],
  ])('%s ends with 2 and nothing on standard output', async (path, message) => {
    const result = await ran(['check', '--format', 'json', 'jobs', path], { files: folder });
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain(message);
  });

  test('- is standard input', async () => {
    const { report, status } = await json(['-'], { standardInput: further });
    expect(report.files[0]).toMatchObject({ path: '-', findings: [{ rule: 'no-retract-after-trip' }] });
    expect(status).toBe(1);
  });
});

describe('a file in another language', () => {
  const conversational = '0 BEGIN PGM BORE MM\n1 TOOL CALL 5 Z\n2 L Z-10 R0 F50\n3 END PGM BORE MM\n';
  const firmware = 'M561\nG30 P0\nG1 Z{move.axes[2].max}\nG1 X5 X6\nM99\n';

  test.each([
    ['bore.h', conversational],
    ['bore.nc', conversational],
    ['bore.ngc', conversational],
    ['bore.txt', conversational],
    ['bore', conversational],
    ['bed.g', firmware],
    ['bed.gcode', firmware],
  ])('%s is said once to be so, and nothing else', async (name, text) => {
    const named = await json([`/shop/${name}`], { files: { [`/shop/${name}`]: text } });
    const piped = await json(['-'], { standardInput: text });
    for (const { report, status } of [named, piped]) {
      expect(rulesIn(report)).toEqual(['outside-dialects']);
      expect(status).toBe(0);
    }
  });
});

describe('what a file may hold', () => {
  test('Latin-1 is read', async () => {
    const bytes = Buffer.from(further.replace('F50', 'F50 (Höhe über Ø)'), 'latin1');
    const { report } = await json(['old.ngc'], { files: { '/shop/old.ngc': bytes } });
    expect(rulesIn(report)).toEqual(['no-retract-after-trip']);
  });

  test('a binary file that is named ends with 2, after the others were checked', async () => {
    const binary = Uint8Array.of(0x7f, 0x45, 0x4c, 0x46, 0, 0, 1);
    const { report, status, error } = await json(['image.ngc', 'further.ngc'], {
      files: { ...files, '/shop/image.ngc': binary },
    });
    expect(error).toContain('image.ngc: binary, not a program; skipped.');
    expect(rulesIn(report)).toEqual(['no-retract-after-trip']);
    expect(status).toBe(2);
  });

  test('a binary file in a folder is named and skipped', async () => {
    const result = await ran(['check', 'data'], {
      files: { '/shop/data/grid.nc': Uint8Array.of(1, 0, 2), '/shop/data/a.nc': sound },
    });
    expect(result).toMatchObject({
      status: 0,
      error: 'probewright: data/grid.nc: binary, not a program; skipped.\n',
    });
  });

  test('an empty file has no findings', async () => {
    expect((await json(['none.ngc'], { files: { '/shop/none.ngc': '' } })).report.files[0].findings).toEqual(
      [],
    );
  });
});

describe('profile', () => {
  const slow = '{ "feeds": { "measuring": 50 }, "rules": { "no-retract-after-trip": "warning" } }';

  test('the nearest upwards from the file holds, and is named', async () => {
    const situation = {
      files: {
        '/shop/a/b/further.ngc': further,
        '/shop/a/probewright.json': slow,
        '/shop/probewright.json': '{}',
      },
    };
    const { report, status } = await json(['a/b/further.ngc'], situation);
    expect(report.profile).toBe('a/probewright.json');
    expect(report.files[0].findings[0].severity).toBe('warning');
    expect(status).toBe(0);
  });

  test('--profile names another, for all', async () => {
    const { report } = await json(['further.ngc', 'sound.ngc', '--profile', 'mine.json'], {
      files: { ...files, '/shop/mine.json': slow, '/shop/probewright.json': '{}' },
    });
    expect(report.profile).toBe('mine.json');
    expect(report.summary).toMatchObject({ error: 0, warning: 1 });
  });

  test.each([
    ['a typo', '{\n  "prob": {}\n}', 'mine.json:2:3: '],
    ['an impossible value', '{ "probe": { "tipDiameter": -1 } }', 'mine.json:1:29: '],
    ['no JSON', '{ "probe": ', 'mine.json:1:'],
    ['no text', '\u0000\u0001', 'mine.json: the profile is no text'],
  ])('%s ends with 2 and says where', async (_, text, message) => {
    const result = await ran(['check', 'sound.ngc', '--profile', 'mine.json'], {
      files: { ...files, '/shop/mine.json': text },
    });
    expect(result).toMatchObject({ status: 2, out: '' });
    expect(result.error).toContain(message);
  });

  test('a profile that is not there ends with 2', async () => {
    const result = await ran(['check', 'sound.ngc', '--profile', 'none.json'], { files });
    expect(result.status).toBe(2);
    expect(result.error).toContain('none.json: no such profile');
  });
});

describe('--fix', () => {
  test('does what leaves motion as it is, writes the file, and shows what is left', async () => {
    const result = await ran(['check', 'idle.ngc', '--fix'], { files });
    expect(result.file('/shop/idle.ngc')?.toString()).toBe('G21 G90 G94\nG0 Z20\nM2\n');
    expect(result).toMatchObject({ status: 0, error: 'probewright: idle.ngc: 1 fix applied.\n' });
    expect(result.out).toContain('nothing found');
  });

  test('leaves alone what would change motion', async () => {
    const result = await ran(['check', 'further.ngc', 'assuming.ngc', '--fix'], { files });
    expect(result.file('/shop/further.ngc')?.toString()).toBe(further);
    expect(result.file('/shop/assuming.ngc')?.toString()).toBe(assuming);
    expect(result.status).toBe(1);
  });

  test('keeps encoding, mark and line endings', async () => {
    const latin = Buffer.from(`(Ø)\r\n${idle.replaceAll('\n', '\r\n')}`, 'latin1');
    const marked = Buffer.from(`\ufeff(Ø)\n${idle}`);
    const result = await ran(['check', 'latin.ngc', 'marked.ngc', '--fix'], {
      files: { '/shop/latin.ngc': latin, '/shop/marked.ngc': marked },
    });
    expect(result.file('/shop/latin.ngc')?.toString('latin1')).toBe('(Ø)\r\nG21 G90 G94\r\nG0 Z20\r\nM2\r\n');
    expect(result.file('/shop/marked.ngc')?.toString()).toBe('\ufeff(Ø)\nG21 G90 G94\nG0 Z20\nM2\n');
  });

  test('cannot write standard input, and says so of a file that it may not write', async () => {
    expect(await ran(['check', '-', '--fix'])).toMatchObject({ status: 2, out: '' });
    const result = await ran(['check', 'locked.ngc', '--fix'], { files: { '/shop/locked.ngc': idle } });
    expect(result.status).toBe(2);
    expect(result.error).toContain('locked.ngc: cannot be written: no permission.');
  });
});

describe('text', () => {
  test('shows the line, what comes next, and a summary', async () => {
    const { out } = await ran(['check', 'further.ngc'], { files });
    expect(out).toContain('further.ngc (rs274ngc)\n\n  3:1      error  no-retract-after-trip\n');
    expect(out).toContain('    3 | G38.2 Z-10 F50\n      | ^^^^^\n    4 | G1 Z-12\n');
    expect(out).toContain('1 error in 1 program.');
  });

  test('is coloured only where the terminal is', async () => {
    expect((await ran(['check', 'further.ngc'], { files })).out).not.toContain('\u001b');
    expect((await ran(['check', 'further.ngc'], { files, colour: true })).out).toContain('\u001b[31m');
  });
});
