import { expect, test } from 'vitest';
import manifest from '../../package.json';
import { documentKind, programEndings } from '../../server/workspace/documentKind.ts';

test.each([
  ['file:///job/part.NGC', '', '', 'program'],
  ['file:///job/part.nc?x#y', 'plaintext', '', 'program'],
  ['file:///job/O0020', '', '%\nO0020(EDGE)\nG21 G90\nG31 X-10. F50\nM99\n%', 'program'],
  ['untitled:Untitled-1', '', 'G21 G90\n(look)\n#1=2\no1 if [#1 EQ 2]\n', 'program'],
  ['file:///job/notes', '', 'Get the probe.\nX-ray the part, then see G. about it.\nMore to come', 'other'],
  ['file:///job/readme.md', 'markdown', 'G21\nG90\n', 'other'],
  ['file:///job/empty', '', '', 'other'],
  ['untitled:Untitled-2', 'gcode', '', 'program'],
  ['file:///job/probewright.json', '', '', 'profile'],
  ['file:///job/probewright%2Ejson', 'gcode', '', 'profile'],
  ['file:///job/%E0%A4%A/part.ngc', '', '', 'program'],
])('%s (%s)', (uri, languageId, text, kind) => expect(documentKind(uri, languageId, text)).toBe(kind));

test('the endings are those that VS Code opens as the language', () => {
  const [language] = manifest.contributes.languages;
  expect([...programEndings].sort()).toEqual(language?.extensions?.map((ending) => ending.slice(1)).sort());
});
