import { describe, expect, test } from 'vitest';
import { builtInProfile, readProfile } from '../../server/profile/profile.ts';
import { routineNamed, routines, writeRoutine } from '../../server/routines/registry.ts';
import type { WriteOptions } from '../../server/routines/writeRoutine.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { everyCase } from './everyCase.ts';
import { profiles } from './profiles.ts';
import { inputsOverProfiles } from './randomInputs.ts';

function text(name: string, options: Partial<WriteOptions>, inputs = {}): string {
  const routine = routineNamed(name);
  if (routine === null) throw new Error(name);
  const written = writeRoutine(routine, inputs, {
    profile: builtInProfile,
    dialect: 'rs274ngc',
    form: 'inline',
    units: 'mm',
    ...options,
  });
  if (!('text' in written)) throw new Error(JSON.stringify(written.problems));
  return written.text;
}

/** ASCII, a block of the dialect, no rapid move, no number that a control misreads. */
function fits(line: string, dialect: DialectName): boolean {
  const isMacro = dialect === 'macro';
  // RS274/NGC allows 256 (NISTIR 6556, 3.3); 130 and, in the macro family, 90 are our own bounds.
  if (!/^[ -~]*$/.test(line) || line.length > (isMacro ? 90 : 130)) return false;
  if (parseBlock(line, dialects[dialect]).faults.length > 0) return false;
  if (/\bG0*0\b|NaN|undefined|Infinity|\de-\d/.test(line)) return false;
  // A control of the macro family reads X15 as 15 least increments.
  if (isMacro && /^[^(]*[XYZF]-?\d+(?![\d.])/.test(line)) return false;
  // Messages of #3000 are cut off behind some 31 characters (common practice, no source).
  return (/#3000=\d+ \((.*)\)/.exec(line)?.[1] ?? '').length <= 31;
}

describe('what is written fits in', () => {
  test.each(everyCase(routines))('$name, $dialect, $form, $units', ({ routine, dialect, form, units }) => {
    for (const { profile, inputs } of inputsOverProfiles(routine, units, 20)) {
      const whole = text(routine.name, { profile, dialect, form, units }, inputs);
      expect(whole.endsWith('\n')).toBe(true);
      expect(whole.split('\n').filter((line) => !fits(line, dialect))).toEqual([]);
      const comments = whole.replace(/\)\n\(/g, ' ');
      expect(comments).toMatch(
        /prove it above the part first, in single block, with reduced rapids and a hand on the stop/i,
      );
      expect(comments).toMatch(/trained people have the last word/i);
    }
  });

  test('names, numbers and labels of the program are left alone', () => {
    const usedParameters = new Set(['#<start_x>', '#< Found >', '#100', '#103']);
    const usedLabels = new Set<number | string>([101, 103, 901, 'probe_bore', '8102']);
    const named = text('bore', { form: 'subroutine', usedParameters, usedLabels });
    expect(named).toContain('o<probe_bore_2> sub');
    expect(named).toContain('#<start_x_2> =');
    expect(named).not.toMatch(/#<start_x>|#<found>|o101 |o103 /);
    const inline = text('bore', { dialect: 'macro', usedParameters, usedLabels });
    expect(inline).not.toMatch(/#10[03](?!\d)|N901\b|GOTO 901/);
    expect(inline).toMatch(/^N902 G1 X/m);
    expect(text('bore', { dialect: 'macro', form: 'subroutine', usedLabels })).toMatch(/^O8103 /m);
  });

  test('a program that leaves no variables gets none taken', () => {
    const usedParameters = new Set(Array.from({ length: 95 }, (_, i) => `#${100 + i}`));
    const bore = routineNamed('bore');
    if (bore === null) throw new Error('bore');
    const options = { profile: builtInProfile, dialect: 'macro', form: 'inline', units: 'mm' } as const;
    expect(writeRoutine(bore, {}, { ...options, usedParameters })).toMatchObject({
      problems: [{ inputs: [], message: expect.stringContaining('#100 to #199') }],
    });
  });

  test('the variables come from the range that the profile names', () => {
    const file = '{"routines": {"parameters": {"first": 520, "last": 569}}}';
    const { profile } = readProfile(file, { path: null, ruleIds: [] });
    if (profile === null) throw new Error(file);
    const numbers = (form: 'inline' | 'subroutine') =>
      [...text('bore', { dialect: 'macro', form, profile }).matchAll(/#(\d+)/g)]
        .map(([, number]) => Number(number))
        .filter((number) => number > 33 && number < 1000);
    for (const all of [numbers('inline'), numbers('subroutine')]) {
      expect(all.length).toBeGreaterThan(3);
      expect(all.filter((number) => number < 520 || number > 569)).toEqual([]);
    }
  });

  test('the variable that the shop keeps the diameter in is none of them', () => {
    const file = JSON.stringify({
      effectiveDiameterParameter: '#520',
      routines: { parameters: { first: 520, last: 569 } },
    });
    const { profile } = readProfile(file, { path: null, ruleIds: [] });
    if (profile === null) throw new Error(file);
    for (const units of ['mm', 'inch'] as const)
      for (const form of ['inline', 'subroutine'] as const) {
        const whole = text('surface', { dialect: 'macro', form, units, profile });
        expect(whole).not.toMatch(/^#520=/m);
        expect(whole).toMatch(/^#521=/m);
        // It is in the units of the profile: read where the routine is too.
        expect(/=#520 /.test(whole)).toBe(units === 'mm');
      }
  });

  test('lines end as the file does', () => {
    const windows = text('surface', { lineEnding: '\r\n' });
    expect(windows.split('\r\n').join('\n')).toBe(text('surface', {}));
    expect(windows.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/);
  });

  test('the same inputs give the same text', () => {
    expect(text('boss', {})).toBe(text('boss', {}));
  });
});

describe('where the tip diameter comes from', () => {
  test('a literal carries the day and the feed of its calibration', () => {
    const whole = text('surface', { profile: profiles.calibrated });
    expect(whole).toContain('#<tip> = 5.9784 ');
    expect(whole.replace(/\)\n\(/g, ' ')).toContain('calibrated 2025-03-31 at 50 mm/min');
    expect(text('surface', { profile: profiles.calibrated, units: 'inch' })).toContain('#<tip> = 0.23537 ');
  });

  test('the place where the shop keeps it is read where the dialect can', () => {
    expect(text('surface', { profile: profiles.inch, units: 'inch' })).toContain('#<tip> = #5410 ');
    expect(text('surface', { profile: profiles.inch, units: 'mm' })).toContain('#<tip> = #5410 ');
    const own = { ...profiles.inch, effectiveDiameterParameter: '#520' };
    expect(text('surface', { profile: own, units: 'inch', dialect: 'macro' })).toMatch(/=#520 /);
    // The shop's own number is in the profile's units.
    expect(text('surface', { profile: own, units: 'mm', dialect: 'macro' })).toMatch(/=3\.1572 /);
    const named = { ...profiles.inch, effectiveDiameterParameter: '#<_tip>' };
    expect(text('surface', { profile: named, units: 'inch', dialect: 'macro' })).toMatch(/=0\.1243 /);
  });

  test('a probe that is not calibrated is said to be', () => {
    expect(text('bore', {})).toContain('NOT CALIBRATED');
    expect(text('bore', { profile: profiles.calibrated })).not.toContain('NOT CALIBRATED');
  });
});

describe('the header names what the control must know for this routine', () => {
  const needs = (name: string, dialect: DialectName, inputs = {}, profile = builtInProfile) =>
    /needs a control that (.*?)(?:; the program|\. )/i.exec(
      text(name, { dialect, profile }, inputs).replace(/\)\n\(/g, ' '),
    )?.[1] ?? '';

  test('rs274ngc', () => {
    expect(needs('bore', 'rs274ngc')).toMatch(/M70 and M72 to keep modes, G38\.3 .*G10 L20$/);
    expect(needs('edge-angle', 'rs274ngc')).toMatch(/ and G10 L2 with R, which turns a work offset$/);
    expect(needs('edge-angle', 'rs274ngc', { result: 'report' })).not.toMatch(/G10/);
    expect(needs('length-reference', 'rs274ngc')).toMatch(/G10 L1 with #5403$/);
    expect(needs('ring-calibration', 'rs274ngc')).toMatch(/LOGOPEN/);
    expect(needs('reversal-centre', 'rs274ngc')).not.toMatch(/M19/);
    expect(needs('reversal-centre', 'rs274ngc', {}, profiles.calibrated)).toMatch(/G10 L20 and M19 with R$/);
  });

  test('macro', () => {
    expect(needs('bore', 'macro')).toMatch(/#3000 AND G10 L2$/i);
    expect(needs('stepped-height', 'macro')).not.toMatch(/G10/);
    expect(needs('ring-calibration', 'macro')).toMatch(/DPRNT/);
    expect(needs('tip-runout', 'macro')).toMatch(/#3006$/);
    expect(needs('tip-runout', 'macro', {}, profiles.calibrated)).toMatch(/M19 WITH R$/);
  });
});

describe('which work offset is written', () => {
  test.each([
    ['rs274ngc', 'active', /^G10 L20 P0 X#<becomes_x> Y#<becomes_y>$/m],
    ['rs274ngc', 'G56', /^G56\n[\s\S]*^G10 L20 P3 /m],
    [
      'macro',
      'active',
      /=#4014-53 [\s\S]*^#\d+=#\[5201\+20\*#\d+\] [\s\S]*^G10 L2 P#\d+ X\[#\d+-#\d+\+#\d+\]/m,
    ],
    ['macro', 'G56', /^G56\n[\s\S]*^#\d+=#5261 [\s\S]*^G10 L2 P3 /m],
  ] as const)('%s, %s', (dialect, workOffset, written) => {
    expect(text('bore', { dialect }, { workOffset })).toMatch(written);
  });
});
