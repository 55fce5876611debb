import { expect, test } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { calledFileNames, callNameOf } from '../../server/workspace/calledFileNames.ts';
import { CalledFileFinder } from '../../server/workspace/calledFiles.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';
import { ProgramTexts } from '../../server/workspace/programTexts.ts';

/** Files of a folder in memory, by their names, and which were asked for. */
function folder(files: Record<string, string | Error>, dialect: 'rs274ngc' | 'macro' = 'rs274ngc') {
  const asked: string[] = [];
  const open = new Map<string, OpenDocument>();
  let now = 0;
  const read = async (uri: string) => {
    const name = decodeURIComponent(uri.replace('file:///job/', ''));
    asked.push(name);
    const found = files[name] ?? null;
    if (found instanceof Error) throw found;
    return found;
  };
  const texts = new ProgramTexts(
    { read },
    (uri) => open.get(uri) ?? null,
    () => now,
  );
  const finder = new CalledFileFinder(texts);
  const from = (text: string, name = 'part.ngc') =>
    finder.of(`file:///job/${name}`, Source.from(SourceText.from(text), dialects[dialect]));
  const later = (milliseconds: number) => {
    now += milliseconds;
  };
  return { finder, texts, from, asked, open, later };
}

test('names of called files, in the order in which they are looked for', () => {
  expect(calledFileNames({ name: 'edge', written: 'Edge' }, 'rs274ngc', 'part.nc')).toEqual([
    'edge.ngc',
    'Edge.ngc',
  ]);
  expect(calledFileNames({ name: '100', written: '100' }, 'rs274ngc', 'part.ngc')).toEqual(['100.ngc']);
  expect(calledFileNames({ name: '20', written: '20' }, 'macro', 'part.tap')).toEqual([
    'O0020.tap',
    'O20.tap',
    '0020.tap',
    '20.tap',
    'O0020.nc',
    'O20.nc',
    '0020.nc',
    '20.nc',
    'O0020',
    'O20',
  ]);
  for (const name of ['../edge', 'a\\b', 'c:edge', '..', '', 'x'.repeat(500)])
    expect(calledFileNames({ name, written: name }, 'rs274ngc', 'part.ngc')).toEqual([]);
});

test('every file name that a call looks for gives back the name of the call', () => {
  for (const [dialect, name] of [
    ['rs274ngc', 'edge.old'],
    ['rs274ngc', '100'],
    ['macro', '20'],
    ['macro', '9810'],
  ] as const)
    for (const file of calledFileNames({ name, written: name }, dialect, 'part.nc'))
      expect([file, callNameOf(file, dialect)]).toEqual([file, name]);
  expect(callNameOf('edge.nc', 'rs274ngc')).toBeNull();
  expect(callNameOf('edge.nc', 'macro')).toBeNull();
});

test('files are found through each other, each once, cycles and the program itself included', async () => {
  const { from } = folder({
    'a.ngc': 'o<a> sub\no<b> call\no<a> endsub',
    'b.ngc': 'o<b> sub\no<a> call\no<part> call\no<b> endsub',
  });
  const called = await from('o<a> call\no<b> call\no<own> sub\no<own> endsub\no<own> call');
  expect(called.files.map(({ uri }) => uri)).toEqual(['file:///job/a.ngc', 'file:///job/b.ngc']);
  expect(called.lead('program', 'a')).toEqual({ file: 0 });
  expect(called.lead(1, 'a')).toEqual({ file: 0 });
  expect(called.lead('program', 'own')).toBeNull();
});

test('a call back into the calling file leads to the program', async () => {
  const { from } = folder({ 'a.ngc': 'o<a> sub\no<part> call\no<a> endsub', 'part.ngc': 'o<a> call' });
  const called = await from('o<a> call');
  expect(called.lead(0, 'part')).toEqual({ file: 'program' });
});

test('the result stays the same object until something that it rests on changes', async () => {
  const files: Record<string, string> = { 'a.ngc': 'o<a> sub\no<a> endsub' };
  const { from, finder, texts, asked, open, later } = folder(files);
  const first = await from('o<a> call\no<gone> call');
  expect(await from('G0 X1\no<a> call\no<gone> call')).toBe(first);
  expect(asked).toEqual(['a.ngc', 'gone.ngc']);
  later(60_000);
  expect(await from('o<a> call\no<gone> call')).toBe(first);
  expect(asked).toHaveLength(4);

  expect(finder.callersOf('file:///job/gone.ngc')).toEqual(['file:///job/part.ngc']);
  files['gone.ngc'] = 'o<gone> sub\no<gone> endsub';
  texts.forget('file:///job/gone.ngc');
  expect((await from('o<a> call\no<gone> call')).files).toHaveLength(2);

  const edited = OpenDocument.open('file:///job/a.ngc', 'gcode', 1, 'o<a> sub\nG91\no<a> endsub');
  open.set('file:///job/a.ngc', edited);
  expect((await from('o<a> call')).files[0]?.source.lineCount).toBe(3);
  finder.forget('file:///job/part.ngc');
  expect(finder.callersOf('file:///job/a.ngc')).toEqual([]);
});

test('a file that is missing, binary, too large or not readable is named in the reason', async () => {
  const { from } = folder({
    'binary.ngc': '\0\0\0',
    'huge.ngc': 'G0 X1\n'.repeat(4_000_000),
    'locked.ngc': new Error('no permission'),
  });
  const called = await from('o<gone> call\no<binary> call\no<huge> call\no<locked> call');
  expect(called.files).toEqual([]);
  expect(called.lead('program', 'gone')).toEqual({
    reason: expect.stringContaining('not at hand (gone.ngc)'),
    missing: 'gone.ngc',
  });
  for (const name of ['binary', 'huge'])
    expect(called.lead('program', name)).toEqual({
      reason: expect.stringContaining(`${name}.ngc, which is too large or no text`),
    });
  expect(called.lead('program', 'locked')).toEqual({ reason: expect.stringContaining('no permission') });
});

test('a called file is read in the dialect of its caller, whatever it looks like', async () => {
  const { from } = folder({ 'O9810.nc': 'G31 Z#26\nM99' }, 'macro');
  const called = await from('G65 P9810 Z-5.', 'part.nc');
  expect(called.files.map(({ source }) => source.dialect.name)).toEqual(['macro']);
});

test('an unsaved program, and one without calls, look for nothing', async () => {
  const { finder, from, asked } = folder({});
  const source = Source.from(SourceText.from('o<a> call'), dialects.rs274ngc);
  expect((await finder.of('untitled:Untitled-1', source)).lead('program', 'a')).toBeNull();
  expect((await from('(o<a> call)\nG0 X1')).files).toEqual([]);
  expect(asked).toEqual([]);
});
