import { describe, expect, test } from 'vitest';
import { definition } from '../../server/editor/definition.ts';
import { highlights } from '../../server/editor/highlights.ts';
import { references } from '../../server/editor/references.ts';
import { openFolder, placeName } from './openFolder.ts';

async function definedAt(files: Record<string, string>): Promise<string[]> {
  const { around, caret } = await openFolder(files);
  return definition(around, caret).map(placeName);
}

async function referencesOf(files: Record<string, string>, withDeclarations = true): Promise<string[]> {
  const { around, caret } = await openFolder(files);
  return references(around, caret, withDeclarations).map(placeName);
}

const macro = (text: string) => `(probewright: dialect macro)\n${text}`;

describe('definition in one file', () => {
  test.each([
    ['#<edge> = 1\nG0 X#<ed|ge>', ['part.ngc 0:0']],
    ['#<edge> = 1\n#<edge> = 2\nG0 X[#<My Edge> + #< Ed ge>|]', ['part.ngc 0:0']],
    ['o<a> sub\n#<own> = 1\no<a> endsub\no<b> sub\n#<own> = 2\nG0 X#<|own>\no<b> endsub', ['part.ngc 4:0']],
    ['o<a> sub\n#<_all> = 1\no<a> endsub\nG0 X#<_|all>\no<a> call', ['part.ngc 1:0']],
    ['o<A b> sub\no<ab> endsub\no<|AB> call [1]', ['part.ngc 0:0']],
    ['o007 sub\no7 endsub\no|7 call', ['part.ngc 0:0']],
    ['o<a> sub\nG0 X#|2\no<a> endsub\no<a> call [1] [5 + 1]', ['part.ngc 3:14']],
    ['(print, #<e|dge>)\n#<edge> = 1', ['part.ngc 1:0']],
    ['o1 while [1]\no1 end|while', ['part.ngc 0:1']],
    ['o<a> call\nG0 X|10', []],
    ['o<gone|> call', []],
    ['#1 = 1\nG0 X#[#1 + |1]', []],
  ])('%s', async (text, expected) => expect(await definedAt({ 'part.ngc': text })).toEqual(expected));

  test.each([
    ['O0001\nM98 P|2\nM30\nO0002\nM99', ['part.nc 4:0']],
    ['IF [#1 EQ 0] GOTO|9\nN09 M30', ['part.nc 2:1']],
    ['O1\nGOTO|9\nN5\nM30\nO2\nN9\nM99', []],
    ['O1\nG65 P2 A1 X-#5\nM30\nO2\nG0 Z#|24\nM99', ['part.nc 2:11']],
    ['O1\nG66 P|2 A1\nX1.\nG67\nM30\nO2\nM99', ['part.nc 6:0']],
    ['O1\nG66.1 P|2\nX1.\nG67\nM30\nO2\nM99', ['part.nc 6:0']],
    ['O1\nM96 P|2\nX1.\nM97\nM30\nO2\nM99', ['part.nc 6:0']],
    ['O1\nM96 P|2 Q5\nX1.\nM30\nO2\nM99', []],
    ['O1\nG66 P2 A1 X-#5\nX1.\nG67\nM30\nO2\nG0 Z#|24\nM99', ['part.nc 2:11']],
  ])('macro: %s', async (text, expected) =>
    expect(await definedAt({ 'part.nc': macro(text) })).toEqual(expected),
  );
});

test('a subroutine, and a shared parameter, are found in called files', async () => {
  const edge = 'o<edge> sub\n#<_found> = #5061\no<edge> endsub';
  expect(await definedAt({ 'part.ngc': 'o<ed|ge> call', 'edge.ngc': edge })).toEqual(['edge.ngc 0:0']);
  expect(await definedAt({ 'part.ngc': 'o<edge> call\nG0 X#<_f|ound>', 'edge.ngc': edge })).toEqual([
    'edge.ngc 1:0',
  ]);
  expect(await definedAt({ 'part.nc': 'O1\nG65 P|9810 X1.\nM30', 'O9810.nc': 'G31 X#24\nM99' })).toEqual([
    'O9810.nc 0:0',
  ]);
  const modal = { 'part.nc': 'O1\nG66 P|9810 Z1.\nX1.\nG67\nM30', 'O9810.nc': 'G31 Z#26\nM99' };
  expect(await definedAt(modal)).toEqual(['O9810.nc 0:0']);
});

test('references follow names over calls, and only over calls', async () => {
  const files = {
    'part.ngc': '#<_top> = 1\no<edge> call\n(debug, top #<_t|op>)',
    'edge.ngc': 'o<edge> sub\n#<_top> = [#<_top> + 1]\no<edge> endsub',
    '+other.ngc': 'G0 X#<_top>\no<edge> call',
    '+apart.ngc': 'G0 X#<_top>',
  };
  expect(await referencesOf(files)).toEqual([
    'part.ngc 0:0',
    'part.ngc 2:12',
    'edge.ngc 1:0',
    'edge.ngc 1:11',
    'other.ngc 0:4',
  ]);
  expect(await referencesOf(files, false)).toEqual(['part.ngc 2:12', 'edge.ngc 1:11', 'other.ngc 0:4']);
});

test('references of a subroutine are where it begins, returns and ends, and its calls', async () => {
  const files = {
    'edge.ngc': 'o<edge> sub\no1 if [#1]\no<edge> return [0]\no1 endif\no<|edge> endsub\no<edge> call',
    '+part.ngc': 'o<edge> call\n(o<edge> call)\no<edge> sub\no<edge> endsub',
    '+other.ngc': 'G0 X0\n  O < Edge > CALL [1]',
  };
  expect(await referencesOf(files)).toEqual([
    'edge.ngc 0:2',
    'edge.ngc 2:2',
    'edge.ngc 4:2',
    'edge.ngc 5:2',
    'other.ngc 1:5',
  ]);
});

test('references of a parameter stay in its routine, by one spelling of its number', async () => {
  const text = 'o<a> sub\n#1 = 2\nG0 X#|01\no<a> endsub\no<b> sub\nG0 X#1\no<b> endsub';
  expect(await referencesOf({ 'part.ngc': text })).toEqual(['part.ngc 1:0', 'part.ngc 2:4']);
});

test('highlights tell writing from reading', async () => {
  const kinds = async (name: string, text: string) => {
    const { around, caret } = await openFolder({ [name]: text });
    return highlights(around.program, caret).map(({ range, kind }) => [range.start.line, kind]);
  };
  expect(await kinds('a.ngc', '#<x> = 1\n#<x> = [#<|x> + 1]')).toEqual([
    [0, 3],
    [1, 3],
    [1, 2],
  ]);
  expect(await kinds('a.nc', macro('N1|0 G0\nGOTO10\nDPRNT[X#1[53]]'))).toEqual([
    [1, 3],
    [2, 2],
  ]);
});

test.each([
  [-1, 0],
  [99, 0],
  [0, 99_999],
  [0, -3],
])('a position outside the text (%i:%i) means nothing', async (line, character) => {
  const { around } = await openFolder({ 'part.ngc': '#<a> = 1' });
  expect(definition(around, { line, character })).toEqual([]);
  expect(references(around, { line, character }, true)).toEqual([]);
  expect(highlights(around.program, { line, character })).toEqual([]);
});
