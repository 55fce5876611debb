import fc from 'fast-check';
import { expect, test } from 'vitest';
// The protocol's own package for texts is the outside truth for what a change means (its sources: LSP 3.17, "Text Documents").
import { TextDocument } from 'vscode-languageserver-textdocument';
import { fileProfile, noProfileFile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import { OpenDocuments } from '../../server/workspace/openDocuments.ts';

const piece = fc.string({
  unit: fc.constantFrom('G', '1', ' ', '\n', '\r\n', '\r', '(', 'é', '😀', '#', '\t'),
  maxLength: 30,
});
const point = fc.record({ line: fc.nat(12), character: fc.nat(40) });

test('any series of changes gives the text that the protocol’s own package gives', () => {
  fc.assert(
    fc.property(piece, fc.array(fc.tuple(point, point, piece), { maxLength: 8 }), (text, edits) => {
      // Made anew for each change: after one beyond its end that package loses count of its lines.
      let wanted = text;
      let document = OpenDocument.open('file:///a.ngc', 'gcode', 1, text);
      for (const [index, [a, b, replacement]] of edits.entries()) {
        const [start, end] =
          a.line < b.line || (a.line === b.line && a.character <= b.character) ? [a, b] : [b, a];
        const change = { range: { start, end }, text: replacement };
        const reference = TextDocument.create('file:///a.ngc', 'gcode', 1, wanted);
        wanted = TextDocument.update(reference, [change], 2).getText();
        document = document.changed(index + 2, [change]);
        expect(document.text.toString()).toBe(wanted);
      }
    }),
    { numRuns: 500 },
  );
});

test('what is found after edits is what is found in the same text opened anew', () => {
  const lines = [
    'G21 G90 G94',
    'G38.2 Z-10 F50',
    'G38.3 X5',
    'G0 Z5',
    'G1 Z-20',
    'G777',
    '(a',
    'o1 if [#5070 EQ 0]',
    'o1 endif',
    '',
  ];
  const row = fc.constantFrom(...lines);
  fc.assert(
    fc.property(
      fc.array(row, { maxLength: 12 }),
      fc.array(fc.tuple(fc.nat(12), row), { maxLength: 5 }),
      (before, edits) => {
        let document = OpenDocument.open('file:///a.ngc', 'gcode', 1, before.join('\n'));
        for (const [index, [line, text]] of edits.entries()) {
          document.program(noProfileFile).findings;
          const range = { start: { line, character: 0 }, end: { line, character: 1000 } };
          document = document.changed(index + 2, [{ range, text }]);
        }
        const anew = OpenDocument.open('file:///a.ngc', 'gcode', 1, document.text.toString());
        expect(document.program(noProfileFile).findings).toEqual(anew.program(noProfileFile).findings);
      },
    ),
    { numRuns: 100 },
  );
});

test('an older version stays as it was', () => {
  const first = OpenDocument.open('file:///a.ngc', 'gcode', 1, 'G0');
  const second = first.changed(2, [{ text: 'G1' }]);
  expect([first.text.toString(), first.version, second.text.toString(), second.version]).toEqual([
    'G0',
    1,
    'G1',
    2,
  ]);
});

test('what is known of a program is kept while neither its text nor its profile changes', () => {
  const document = OpenDocument.open('file:///a.ngc', 'gcode', 1, 'G0');
  const profile = fileProfile('file:///probewright.json', '{}');
  expect(document.program(profile)).toBe(document.program(profile));
  expect(document.program(noProfileFile)).not.toBe(document.program(profile));
});

test('the dialect: a comment in the file before the profile, the profile before what the text looks like', () => {
  const dialectOf = (text: string, profile: string) =>
    OpenDocument.open('file:///a.nc', '', 1, text).program(fileProfile('file:///probewright.json', profile))
      .source.dialect.name;
  expect(dialectOf('G31 X1', '{}')).toBe('macro');
  expect(dialectOf('G31 X1', '{ "dialect": "rs274ngc" }')).toBe('rs274ngc');
  expect(dialectOf('(probewright: dialect macro)\nG38.2 X1', '{ "dialect": "rs274ngc" }')).toBe('macro');
});

test('a document is found by any spelling of its address, and gone once it is closed', () => {
  const documents = new OpenDocuments();
  documents.open('file:///c%3A/job/a%20b.ngc', 'gcode', 1, 'G0');
  expect(documents.find('file:///C:/job/a b.ngc')?.version).toBe(1);
  expect(documents.find('file:///C:/job/other.ngc')).toBeNull();
  expect(documents.change('file:///not/open.ngc', 2, [{ text: '' }])).toBeNull();
  documents.close('file:///c%3A/job/a%20b.ngc');
  expect(documents.all()).toEqual([]);
});
