import { expect, test } from 'vitest';
import { type Analysis, analyse } from '../../server/analysis/analysis.ts';
import type { CalledFiles, Lead } from '../../server/analysis/calledFiles.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { datumsOf, departuresOf, untestedOf } from './analysed.ts';

/** The program with the files that its calls find, by the name of the call. */
function analysedWith(
  program: string,
  found: Readonly<Record<string, string>>,
  dialect: DialectName = 'rs274ngc',
): Analysis {
  const read = (text: string) => Source.from(SourceText.from(text), dialects[dialect]);
  const names = Object.keys(found);
  const files = names.map((name) => ({ uri: `file:///${name}`, source: read(found[name] ?? '') }));
  const lead = (_: unknown, name: string): Lead =>
    names.includes(name) ? { file: names.indexOf(name) } : { reason: `no file for ${name}` };
  const called: CalledFiles = { files, lead };
  return analyse(read(program), builtInProfile, called);
}

const edge = 'o<edge> sub\nG91 G38.2 X#1 F50\nG90\no<edge> endsub [#5061]\nM2\n';

test('a result that a called file returns reaches the datum of its caller', () => {
  const analysis = analysedWith(
    'G21 G90 G94\nG0 X0\no<edge> call [20]\nG10 L2 P1 X[#<_value> + 2]\nG0 X-5\nM2',
    {
      edge,
    },
  );
  expect(analysis.touches).toEqual([]);
  expect(analysis.elsewhere.touches.map(({ file, line, calls, axis }) => [file, line, calls, axis])).toEqual([
    ['file:///edge', 1, [2], 'x'],
  ]);
  const [datum] = analysis.datums;
  expect(datum?.line).toBe(3);
  expect(datum?.terms?.map(({ touch, sign }) => [touch.file, touch.line, sign])).toEqual([
    ['file:///edge', 1, 1],
  ]);
  expect(analysis.notKnown).toEqual([]);
});

test('modes that a called file leaves hold in the caller', () => {
  const analysis = analysedWith('G21 G90\no<far> call\nG1 X1', { far: 'o<far> sub\nG91 F70\no<far> endsub' });
  expect(analysis.stateAt(2)?.modes.distance).toEqual(['G91']);
  expect(analysis.stateAt(2)?.feed).toBe(70);
});

test('what a called file does with a touch of the caller shows at the call', () => {
  const called = {
    drag: 'o<drag> sub\nG0 Y50\no<drag> endsub',
    keep: 'o<keep> sub\n#<_top>=[#1 + 1]\nG10 L20 P1 Z[#<_top>]\no<keep> endsub',
  };
  const dragged = analysedWith('G21 G90 G94\nG0 X0 Z5\nG38.2 Z-5 F50\no<drag> call\nM2', called);
  expect(departuresOf(dragged)).toEqual(['3>4 sideways 0']);
  const kept = analysedWith('G21 G90 G94\nG0 Z5\nG38.3 Z-5 F50\no<keep> call [#5063]\nG0 Z5\nM2', called);
  expect(untestedOf(kept)).toContain('3>4 offset');
  expect(kept.datums).toEqual([]);
  expect(kept.elsewhere.datums.map(({ file, line }) => [file, line])).toEqual([['file:///keep', 2]]);
});

test('what comes next after a touch of a called file is kept where that file can not see it', () => {
  const down = 'o<down> sub\nG38.2 Z-#1 F50\no<down> endsub';
  const next = (after: string) => {
    const analysis = analysedWith(`G21 G90 G94\nG0 X0 Y0 Z5\no<down> call [9]\n${after}\nM2`, { down });
    expect(analysis.departures).toEqual([]);
    return analysis.elsewhere.departures.map(({ touch, place, kind }) => [
      ...[touch.file, touch.line, touch.calls, place.line, kind],
    ]);
  };
  expect(next('G0 X9')).toEqual([['file:///down', 1, [2], 3, 'sideways']]);
  expect(next('G0 Z5')).toEqual([['file:///down', 1, [2], 3, 'retract']]);
  expect(next('(nothing)')).toEqual([['file:///down', 1, [2], 4, 'program-end']]);
});

test('a subroutine of the file itself goes first, and one of a called file finds its neighbours', () => {
  const own = 'o<edge> sub\n#<_value>=7\no<edge> endsub [3]\nG90\no<edge> call\nG1 X1';
  expect(analysedWith(own, { edge }).stateAt(5)?.parameter('#<_value>')).toBe(3);
  const two =
    'o<inner> sub\no<inner> endsub [4]\no<outer> sub\no<inner> call\no<outer> endsub [#<_value> + 1]';
  expect(analysedWith('o<outer> call\nG1 X1', { outer: two }).stateAt(1)?.parameter('#<_value>')).toBe(5);
});

test('files that call each other, or hold no such subroutine, are said and not followed', () => {
  const reasons = (analysis: Analysis) => analysis.notKnown.map(({ place, reason }) => [place.line, reason]);
  const touching = 'G21 G90 G94\nG38.2 Z-5 F50\nG0 Z5\n';
  const cyclic = analysedWith(`${touching}o<a> call\nM2`, {
    a: 'o<a> sub\no<b> call\no<a> endsub',
    b: 'o<b> sub\no<a> call\no<b> endsub',
  });
  expect(reasons(cyclic)).toEqual([[3, 'a subroutine that calls itself']]);
  expect(reasons(analysedWith(`${touching}o<a> call\nM2`, { a: 'o<other> sub\no<other> endsub' }))).toEqual([
    [3, 'the file that it calls holds no subroutine of that name'],
  ]);
  expect(reasons(analysedWith(`${touching}o<gone> call\nM2`, {}))).toEqual([[3, 'no file for gone']]);
});

test('a macro in a file of its own, numbered or not, takes its arguments', () => {
  const program = 'O1\nG21 G90 G94\nG65 P9810 X20. F50\nG10 L2 P1 X#100\nG0 X0\nM30';
  const body = 'G31 X#24 F#9\n#100=#5061\nG0 X0\nM99\n';
  for (const called of [`O9810\n${body}`, body]) {
    const analysis = analysedWith(program, { 9810: called }, 'macro');
    expect(datumsOf(analysis)).toEqual([expect.stringMatching(/^G54\.x = 1\*m\dx/)]);
    expect(analysis.elsewhere.touches.map(({ feed }) => feed.value)).toEqual([50]);
  }
});
