import { expect, test } from 'vitest';
import { DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver';
import type { ClientFacts } from '../../server/editor/clientFacts.ts';
import { mostDiagnostics, programDiagnostics } from '../../server/editor/diagnostics.ts';
import { problemDiagnostics } from '../../server/editor/problemDiagnostics.ts';
import { fileProfile } from '../../server/workspace/fileProfile.ts';
import type { Program } from '../../server/workspace/program.ts';
import { capable, clientOf, openProgram, uri } from './openProgram.ts';

const furtherIn = 'G21 G90 G94\nG0 X0 Y0 Z5\nG38.2 Z-10 F50\nG1 Z-12\nM2\n';

test('a finding stands at its words, with severity, code, link and the other place', () => {
  const { program } = openProgram(furtherIn);
  const [only, ...others] = programDiagnostics(program, capable);
  expect(others).toEqual([]);
  expect(only).toMatchObject({
    severity: DiagnosticSeverity.Error,
    code: 'no-retract-after-trip',
    source: 'probewright',
    codeDescription: { href: 'command:probewright.explainRule?%5B%22no-retract-after-trip%22%5D' },
    range: { start: { line: 2, character: 0 }, end: { line: 2 } },
  });
  expect(only?.relatedInformation?.map(({ location }) => [location.uri, location.range.start.line])).toEqual([
    [uri, 3],
  ]);
});

test('a client gets no more than it takes', () => {
  const { program } = openProgram(furtherIn);
  const [only] = programDiagnostics(program, clientOf({}, { textDocument: { publishDiagnostics: {} } }));
  expect(only).not.toHaveProperty('codeDescription');
  expect(only).not.toHaveProperty('relatedInformation');
});

test('text that does nothing fades, and what held once is struck out, where the client shows it', () => {
  const allowed = 'G21 G90 G94\nG0 Z5 (probewright: allow syntax - long mended)\nM2\n';
  const earlier = openProgram(
    'G21 G90 G94 G54\nG0 X0 Y0\nG38.2 X20 F40\n#1 = [#5061 + 1.96]\nG0 X-5\nG10 L2 P1 X[#5221 + #1]\nM2\n',
    { probe: { calibration: { effectiveDiameter: 3.97, expandedUncertainty: 0.002, feed: 40 } } },
  );
  const tagsOf = (program: Program, client: ClientFacts) =>
    programDiagnostics(program, client).flatMap(({ code, tags }) => (tags ? [[code, ...tags]] : []));
  expect(tagsOf(openProgram(allowed).program, capable)).toEqual([
    ['unused-suppression', DiagnosticTag.Unnecessary],
  ]);
  expect(tagsOf(earlier.program, capable)).toEqual([
    ['effective-diameter-outdated', DiagnosticTag.Deprecated],
  ]);
  const faded = clientOf({}, { textDocument: { publishDiagnostics: { tagSupport: { valueSet: [1] } } } });
  expect(tagsOf(openProgram(allowed).program, faded)).toHaveLength(1);
  expect(tagsOf(earlier.program, faded)).toEqual([]);
});

test('positions are counted in UTF-16, whatever the line endings', () => {
  const { program } = openProgram('G21 G90\r\n(😀 é)\tG777 \r\nG0\rG778');
  const places = programDiagnostics(program, capable).map(({ range }) => range);
  expect(places).toEqual([
    { start: { line: 1, character: 7 }, end: { line: 1, character: 11 } },
    { start: { line: 3, character: 0 }, end: { line: 3, character: 4 } },
  ]);
});

test('the worst thousand are shown, and the last one says how many more there are', () => {
  const warnings = 'G777\n'.repeat(1500);
  const { program } = openProgram(`${warnings}G38.2 G38.3 X10 F50\n`);
  const shown = programDiagnostics(program, capable);
  expect(shown).toHaveLength(mostDiagnostics);
  expect(shown.filter(({ severity }) => severity === DiagnosticSeverity.Error).length).toBeGreaterThan(0);
  const hidden = program.findings.length - (mostDiagnostics - 1);
  expect(shown.at(-1)?.message).toMatch(new RegExp(`^${hidden} more findings are not shown`));
});

test('an unreadable profile is said once, with its problems as other places', () => {
  const { program } = openProgram(furtherIn, '{ "probe": { "tipDiametre": 4, "release": -1 } }');
  const [note, ...rest] = programDiagnostics(program, capable);
  expect(note?.severity).toBe(DiagnosticSeverity.Warning);
  expect(note?.message).toMatch(
    /^The probe profile \/job\/probewright\.json can't be used: .*\(and 1 more\)/,
  );
  expect(note?.relatedInformation?.[0]?.location).toMatchObject({
    uri: 'file:///job/probewright.json',
    range: { start: { line: 0, character: 13 } },
  });
  expect(rest.map(({ code }) => code)).toEqual(['no-retract-after-trip']);
});

test('the problems of a profile stand at their keys', () => {
  const text = '{\n  // ours\n  "probe": { "tipDiametre": 4 }\n}';
  const [problem] = problemDiagnostics(fileProfile('file:///job/probewright.json', text).problems);
  expect(problem).toMatchObject({ severity: DiagnosticSeverity.Error, source: 'probewright' });
  const { start, end } = problem?.range ?? { start: { line: 0, character: 0 }, end: { character: 0 } };
  expect(text.split('\n')[start.line]?.slice(start.character, end.character)).toContain('tipDiametre');
});

test.each([
  ['binary', 'G0\0\u0001\u0002 X', /binary/],
  ['over fifty million characters', `G0 X0${' '.repeat(50_000_001)}`, /50 million characters/],
])('a file that is %s gets one note and is not looked into', (_, text, expected) => {
  const { program } = openProgram(text);
  const [note, ...others] = programDiagnostics(program, capable);
  expect(note?.message).toMatch(expected);
  expect(others).toEqual([]);
});
