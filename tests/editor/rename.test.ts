import { describe, expect, test } from 'vitest';
import type { NameFacts } from '../../server/editor/nameFacts.ts';
import { prepareRename, rename } from '../../server/editor/rename.ts';
import { filesAfter, openFolder } from './openFolder.ts';

const capable: NameFacts = { versionedEdits: true, renamesFiles: true, linkTooltips: true };

/** The files after a rename, or the words with which it was refused. */
async function renamed(
  marked: Record<string, string>,
  typed: string,
  client: NameFacts = capable,
): Promise<Record<string, string> | string> {
  const { around, caret, files } = await openFolder(marked);
  const fileExists = async (uri: string) => files[uri.replace('file:///job/', '')] !== undefined;
  const edit = await rename(around, caret, typed, { client, version: () => null, fileExists });
  return 'refused' in edit ? edit.refused : filesAfter(files, edit);
}

async function renamedIn(text: string, typed: string): Promise<string> {
  const result = await renamed({ 'part.ngc': text }, typed);
  return typeof result === 'string' ? result : (result['part.ngc'] ?? '');
}

async function renamedMacro(text: string, typed: string): Promise<string> {
  const result = await renamed({ 'part.nc': `(probewright: dialect macro)\n${text}` }, typed);
  return typeof result === 'string' ? result : (result['part.nc'] ?? '').replace(/^.*\n/, '');
}

describe('parameters', () => {
  test.each([
    [
      '#<ed|ge> = 1\nG0 X#<Ed ge> Y[-#<edge>]\n(print, #<edge> mm)',
      'left',
      '#<left> = 1\nG0 X#<left> Y[-#<left>]\n(print, #<left> mm)',
    ],
    ['#<a|> = 1\n#2 = #<a>', '#<b c>', '#<b c> = 1\n#2 = #<b c>'],
    ['#100 = 1\nG0 X#0|100', '101', '#101 = 1\nG0 X#101'],
    ['#1|00 = 1\nG0 X#100', '<_edge>', '#<_edge> = 1\nG0 X#<_edge>'],
    ['#<_edge|> = 1\nG0 X#<_edge>', '#100', '#100 = 1\nG0 X#100'],
    ['#1| = 1\nG0 X#1', 'edge', '#<edge> = 1\nG0 X#<edge>'],
    ['(ü😀) #<a|> = [#<a> + 1] (ü) G0 X#<a>', 'b', '(ü😀) #<b> = [#<b> + 1] (ü) G0 X#<b>'],
  ])('%s to %s', async (text, typed, expected) => expect(await renamedIn(text, typed)).toBe(expected));

  test('a local stays in its routine, a shared one goes along the calls', async () => {
    const own = 'o<a> sub\n#<x|> = 1\no<a> endsub\no<b> sub\n#<x> = 2\no<b> endsub';
    expect(await renamedIn(own, 'y')).toBe(own.replace('#<x|>', '#<y>'));
    const files = {
      'part.ngc': '#<_t|op> = 1\no<edge> call',
      'edge.ngc': 'o<edge> sub\n#<_top> = 2\no<edge> endsub',
      '+apart.ngc': '#<_top> = 3',
    };
    expect(await renamed(files, '_level')).toEqual({
      'part.ngc': '#<_level> = 1\no<edge> call',
      'edge.ngc': 'o<edge> sub\n#<_level> = 2\no<edge> endsub',
      'apart.ngc': '#<_top> = 3',
    });
  });

  test.each([
    ['G0 X#50|61', '100', "#5061 is the control's own"],
    ['#<_x|> = 1', '_y2', "#<_x> is the control's own"],
    ['#1|00 = 1', '5061', "#5061 is the control's own"],
    ['#<a|> = 1', '_q', 'would be shared by all routines'],
    ['#1|00 = 1', '20', 'would be local'],
    ['#1|00 = 1\n#101 = 2', '101', '#101 is in use already: line 2'],
    ['#<a|> = 1\nG0 X#<B>', 'b', '#<b> is in use already: line 2'],
    ['o<a> sub\nG0 X#|1\no<a> endsub', 'x', 'an argument of its calls'],
    ['#1|00 = 1\n#[#<n> + 90] = 2', '101', 'Line 2 computes which parameter'],
    ['#<_q|> = 1\nG0 X##2', '101', 'Line 2 computes which parameter'],
    ['#<a|> = 1', 'a>b', "can't be a name"],
    ['#<a|> = 1', '', "can't be a name"],
    ['#<a|> = 1', '2x', "can't be a name"],
    ['#1|00 = 1', '0', 'out of range'],
    ['#1|00 = 1', '9999', 'not among the numbers'],
    [`#<a|> = 1 (${'x'.repeat(240)})`, 'a_long_name', 'longer than a block may be'],
    ['#[#1 + 1|] = 2', 'x', 'Nothing here has a name'],
    ['G0 X1|0', 'x', 'Nothing here has a name'],
  ])('%s to %s is refused', async (text, typed, words) =>
    expect(await renamedIn(text, typed)).toContain(words),
  );

  test('numbers of the macro family', async () => {
    expect(await renamedMacro('#10|0=1\nDPRNT[X#100[53]]', '#150')).toBe('#150=1\nDPRNT[X#150[53]]');
    expect(await renamedMacro('#10|0=1', '510')).toContain('outlast switching off');
    expect(await renamedMacro('#10|0=1', 'edge')).toContain('is no number');
    expect(await renamedMacro('O1\n#1|=1\nM98 P2\nM30\nO2\nG0 X#1\nM99', '2')).toContain(
      'M98 on line 4 shares #1',
    );
  });
});

describe('subroutines', () => {
  const edge = 'o<edge> sub\n  o1 if [#1]\n    o<edge> return\n  o1 endif\no<edge> endsub\n';
  const corner = edge.replaceAll('edge', 'corner');

  test('within one file, with every label of it', async () => {
    expect(await renamedIn(`${edge}o<ed|ge> call [1]\nM2`, 'corner')).toBe(`${corner}o<corner> call [1]\nM2`);
    expect(await renamedIn('o100 sub\no100 endsub\nO1|00 call', 'o<edge>')).toBe(
      'o<edge> sub\no<edge> endsub\nO<edge> call',
    );
    expect(await renamedIn('o<a|> sub\no<a> endsub\no<a>call', '200')).toBe(
      'o200 sub\no200 endsub\no200call',
    );
  });

  test('in a file of its own, which is renamed with it, and every open caller', async () => {
    const files = { 'part.ngc': 'o<ed|ge> call', 'edge.ngc': edge, '+other.ngc': 'o<Edge> call [2]' };
    expect(await renamed(files, 'Corner')).toEqual({
      'part.ngc': 'o<Corner> call',
      'corner.ngc': edge.replaceAll('edge', 'Corner'),
      'other.ngc': 'o<Corner> call [2]',
    });
  });

  test('of the macro family, by number, leading zeros kept', async () => {
    const text = 'O0001\nM98 P|0020\nG65 P20 A1\nM30\nO0020\nM99';
    expect(await renamedMacro(text, 'O30')).toBe('O0001\nM98 P0030\nG65 P30 A1\nM30\nO0030\nM99');
    const modal = 'O0001\nG66 P|0020 A1\nX1\nG67\nM96 P20\nM30\nO0020\nM99';
    expect(await renamedMacro(modal, 'O30')).toBe('O0001\nG66 P0030 A1\nX1\nG67\nM96 P30\nM30\nO0030\nM99');
    const files = { 'part.nc': 'O1\nM98 P2|0\nG65 P20\nM30', 'O0020.nc': 'O0020\nM99' };
    expect(await renamed(files, '31')).toEqual({
      'part.nc': 'O1\nM98 P31\nG65 P31\nM30',
      'O0031.nc': 'O0031\nM99',
    });
  });

  test('what would call something else is refused', async () => {
    expect(await renamedIn(`${edge}o<b> sub\no<b> endsub\no<|edge> call`, 'b')).toContain(
      'in use already: line 6',
    );
    expect(await renamedIn('o100 sub\no1 if [1]\no1 endif\no100 endsub\no10|0 call', '1')).toContain(
      'line 2',
    );
    const files = { 'part.ngc': 'o<ed|ge> call', 'edge.ngc': edge };
    expect(await renamed({ ...files, 'b.ngc': '' }, 'b')).toContain('There is a file b.ngc already');
    expect(await renamed(files, 'b', { ...capable, renamesFiles: false })).toContain('rename the file first');
    const caller = 'o<|edge> call\no<b> sub\no<b> endsub';
    expect(await renamed({ 'part.ngc': caller, 'edge.ngc': edge }, 'b')).toContain('would call instead');
    expect(await renamedIn('o<go|ne> call', 'b')).toContain('No file that is known holds subroutine gone');
  });

  test('a client without versioned edits gets plain ones', async () => {
    const plain = { ...capable, versionedEdits: false, renamesFiles: false };
    expect(await renamed({ 'part.ngc': '#<a|> = 1' }, 'b', plain)).toEqual({ 'part.ngc': '#<b> = 1' });
  });
});

describe('labels', () => {
  test('of GOTO, leading zeros kept', async () => {
    expect(await renamedMacro('N0010 G0\nIF[#1EQ1]GOTO1|0\nGOTO10', 'N20')).toBe(
      'N0020 G0\nIF[#1EQ1]GOTO20\nGOTO20',
    );
    expect(await renamedMacro('N1|0 G0\nGOTO#5', '20')).toContain('The GOTO on line 3 computes');
    expect(await renamedMacro('N1|0 G0\nN20', '20')).toContain('N20 is in use already');
    expect(await renamedMacro('O1\nM98P2\nN1|0\nM30\nO2\nM99 P10', '20')).toContain('may return to N10');
    expect(await renamedMacro('N1|0 G0', 'x')).toContain('is no number');
  });

  test('of flow, in their subroutine', async () => {
    const text =
      'o<a> sub\no1 if [1]\no1 el|se\no1 endif\no<a> endsub\no<b> sub\no1 if [1]\no1 endif\no<b> endsub';
    expect(await renamedIn(text, '2')).toBe(
      'o<a> sub\no2 if [1]\no2 else\no2 endif\no<a> endsub\no<b> sub\no1 if [1]\no1 endif\no<b> endsub',
    );
    expect(await renamedIn('o1| if [1]\no1 endif\no2 if [1]\no2 endif', '2')).toContain(
      'in use already: line 3',
    );
  });
});

test('preparing gives the name alone, or the reason', async () => {
  const prepared = async (text: string) => {
    const { around, caret } = await openFolder({ 'part.ngc': text });
    return prepareRename(around, caret);
  };
  expect(await prepared('G0 X#<my ed|ge>')).toEqual({
    range: { start: { line: 0, character: 6 }, end: { line: 0, character: 13 } },
    placeholder: 'my edge',
  });
  expect(await prepared('o1|00 sub\no100 endsub')).toMatchObject({ placeholder: '100' });
  expect(await prepared('G0 X|')).toHaveProperty('refused');
});
