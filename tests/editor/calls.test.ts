import { describe, expect, test } from 'vitest';
import { incomingCalls, outgoingCalls, prepareCallHierarchy } from '../../server/editor/callHierarchy.ts';
import { documentLinks } from '../../server/editor/documentLinks.ts';
import { fileRenameEdits } from '../../server/editor/fileRename.ts';
import { hover } from '../../server/editor/hover.ts';
import { workspaceSymbols } from '../../server/editor/workspaceSymbols.ts';
import { knownPrograms } from '../../server/workspace/relatedPrograms.ts';
import { filesAfter, openFolder, placeName } from './openFolder.ts';
import { capable } from './openProgram.ts';

const shop = {
  'part.ngc': 'G21\no<ed|ge> call [1]\no<edge> call [2]\nM2',
  'edge.ngc': 'o<lift> sub\no<lift> endsub\no<edge> sub\n#<_x1> = 1\no<lift> call\no<edge> endsub',
  '+other.ngc': 'o<all> sub\no<edge> call\no<all> endsub\no<all> call\no<gone> call',
};

describe('call hierarchy', () => {
  test('leads over files in both directions', async () => {
    const { around, caret, open } = await openFolder(shop);
    const known = knownPrograms(open);
    const [edge] = prepareCallHierarchy(around.program, caret) ?? [];
    if (!edge) throw new Error('Nothing was prepared.');
    expect([edge.name, edge.uri, edge.range.start.line, edge.range.end.line]).toEqual([
      'edge',
      'file:///job/edge.ngc',
      2,
      5,
    ]);
    const callers = incomingCalls(edge, known);
    expect(
      callers.map(({ from, fromRanges }) => [from.name, fromRanges.map(({ start }) => start.line)]),
    ).toEqual([
      ['part.ngc', [1, 2]],
      ['all', [1]],
    ]);
    const called = outgoingCalls(edge, known);
    expect(called.map(({ to, fromRanges }) => [to.name, to.uri, fromRanges[0]?.start.line])).toEqual([
      ['lift', 'file:///job/edge.ngc', 4],
    ]);
    const [main] = callers;
    expect(main && outgoingCalls(main.from, known).map(({ to }) => to.name)).toEqual(['edge']);
  });

  test('of macros called after motions, and by a signal', async () => {
    const { around, caret, open } = await openFolder({
      'part.nc': 'O1\nG21 G90\nG66 P|9010\nX1.\nG67\nM96 P9010\nM97\nM30',
      'O9010.nc': 'O9010\nM99',
    });
    const [item] = prepareCallHierarchy(around.program, caret) ?? [];
    if (!item) throw new Error('Nothing was prepared.');
    const lines = incomingCalls(item, knownPrograms(open)).map(({ fromRanges }) =>
      fromRanges.map(({ start }) => start.line),
    );
    expect([item.uri, lines]).toEqual(['file:///job/O9010.nc', [[2, 5]]]);
    expect(documentLinks(around.program, true).map(({ range }) => range.start.line)).toEqual([2, 5]);
  });

  test('of what is gone, or no name, is empty', async () => {
    const { around, caret, open } = await openFolder(shop);
    const [edge] = prepareCallHierarchy(around.program, caret) ?? [];
    expect(edge && incomingCalls({ ...edge, uri: 'file:///job/gone.ngc' }, knownPrograms(open))).toEqual([]);
    expect(edge && outgoingCalls({ ...edge, data: 'gone' }, knownPrograms(open))).toEqual([]);
    expect(prepareCallHierarchy(around.program, { line: 0, character: 1 })).toBeNull();
    expect(prepareCallHierarchy(around.program, { line: 77, character: 1 })).toBeNull();
  });
});

test('calls into other files are links, those within a file and into missing ones are not', async () => {
  const { around } = await openFolder({
    ...shop,
    'part.ngc': '|o<edge> call\no<gone> call\no<own> sub\no<own> endsub\no<own> call',
  });
  expect(documentLinks(around.program, true)).toEqual([
    {
      range: { start: { line: 0, character: 2 }, end: { line: 0, character: 6 } },
      target: 'file:///job/edge.ngc',
      tooltip: 'Open edge.ngc',
    },
  ]);
});

test('symbols of open programs and of those that they call, by letters in order', async () => {
  const { open } = await openFolder(shop);
  const names = (query: string) =>
    workspaceSymbols(query, knownPrograms(open)).map(
      (symbol) => `${symbol.name} ${placeName(symbol.location)}`,
    );
  expect(names('')).toEqual([
    'all other.ngc 0:0',
    'lift edge.ngc 0:0',
    'edge edge.ngc 2:0',
    '#<_x1> edge.ngc 3:0',
  ]);
  expect(names('EG')).toEqual(['edge edge.ngc 2:0']);
  expect(names('zz')).toEqual([]);
});

describe('a file that is renamed', () => {
  const renamed = async (oldName: string, newName: string, files: Record<string, string> = shop) => {
    const { open, files: before } = await openFolder(files);
    const uri = (name: string) => `file:///job/${name}`;
    const edit = fileRenameEdits([{ oldUri: uri(oldName), newUri: uri(newName) }], knownPrograms(open));
    return edit && filesAfter(before, edit);
  };

  test('takes its subroutine and the calls of open programs along', async () => {
    expect(await renamed('edge.ngc', 'left edge.ngc')).toEqual({
      'part.ngc': 'G21\no<left edge> call [1]\no<left edge> call [2]\nM2',
      'edge.ngc': shop['edge.ngc'].replaceAll('edge', 'left edge'),
      'other.ngc': shop['+other.ngc'].replaceAll('edge', 'left edge'),
    });
    const macro = { 'part.nc': 'O1|\nG65 P9810 X1.\nM30', 'O9810.nc': 'O9810\nM99' };
    expect(await renamed('O9810.nc', 'O9811.nc', macro)).toEqual({
      'part.nc': 'O1\nG65 P9811 X1.\nM30',
      'O9810.nc': 'O9811\nM99',
    });
  });

  test.each([
    ['edge.ngc', 'lib/edge.ngc'],
    ['edge.ngc', 'edge.txt'],
    ['edge.ngc', 'lift.ngc'],
    ['edge.ngc', 'EDGE.ngc'],
    ['part.ngc', 'piece.ngc'],
    ['gone.ngc', 'here.ngc'],
  ])('%s to %s changes nothing', async (from, to) => expect(await renamed(from, to)).toBeNull());
});

test('the hover of a datum leads to a touch in a called file', async () => {
  const { around, open } = await openFolder({
    'part.ngc': 'G21 G90 G94\nG0 X0\no<edge> call [20]\nG10 L2 P1 X#<_value>\nG0 X-5\nM2|',
    'edge.ngc': 'o<edge> sub\nG91 G38.2 X#1 F50\nG90\no<edge> endsub [#5061]',
  });
  const program = open.find(({ uri }) => uri === around.program.uri);
  const shown = program && hover(program, { line: 3, character: 11 }, capable);
  expect(JSON.stringify(shown)).toContain('[edge.ngc, line 2](file:///job/edge.ngc#L2)');
});
