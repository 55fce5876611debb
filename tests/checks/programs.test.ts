import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { detectDialect } from '../../server/syntax/detectDialect.ts';
import { expectMarks, readMarks } from './marked.ts';

const programs = join(import.meta.dirname, '../programs');

/** Programs that say something only beside a profile. */
const profiles: Readonly<Record<string, string>> = {
  'radius-in-a-constant.ngc': '{ "probe": { "tipDiameter": 6.35 } }',
};

/** Program files with marks; the ending says which dialect must be detected: .ngc is rs274ngc, .nc macro. */
function marked(folder: string) {
  return readdirSync(join(programs, folder)).map((name) => ({
    name,
    dialect: name.endsWith('.ngc') ? ('rs274ngc' as const) : ('macro' as const),
    text: readFileSync(join(programs, folder, name), 'utf8'),
    profile: profiles[name],
  }));
}

function expectDetected(text: string, dialect: string): void {
  expect(detectDialect(readMarks(text).text).dialect).toBe(dialect);
}

describe('habits that are right as they stand', () => {
  it.each(marked('habits'))('$name', ({ text, dialect }) => {
    expectDetected(text, dialect);
    expect(readMarks(text).expected).toEqual([]);
    expectMarks(text, { dialect });
  });
});

describe('faults met in the wild', () => {
  it.each(marked('faults'))('$name', ({ text, ...setting }) => {
    expectDetected(text, setting.dialect);
    expect(readMarks(text).expected).not.toEqual([]);
    expectMarks(text, setting);
  });
});

describe('milling programs', () => {
  it.each(marked('milling'))('$name', ({ text, dialect }) => {
    expect(readMarks(text).expected).toEqual([]);
    expect(text.split('\n').length).toBeGreaterThan(50);
    expectMarks(text, { dialect });
  });

  it('is a dozen and one, of both dialects', () => {
    const found = marked('milling').map(({ dialect }) => dialect);
    expect(found.length).toBeGreaterThanOrEqual(13);
    expect(found.filter((dialect) => dialect === 'macro').length).toBeGreaterThanOrEqual(5);
  });

  // A neutral program must be clean whichever dialect it is taken for.
  it.each(marked('milling').filter(({ name }) => name.startsWith('neutral')))(
    '$name in both dialects',
    ({ text }) => {
      expectMarks(text, { dialect: 'rs274ngc' });
      expectMarks(text, { dialect: 'macro' });
    },
  );
});
