import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readSphereTouches, readTouches } from '../../../server/probe/calibration/readTouches.ts';

const good = 'direction,x,y,feed,spindle\n0,10.5,0,60,0\n90,0,10.5,60,180\n';

function problems(text: string): string[] {
  const read = readTouches(text, 1);
  return 'problems' in read ? read.problems.map(({ line, message }) => `${line}: ${message}`) : [];
}

describe('what is read', () => {
  test('columns by name, feed per minute, lines of the file', () => {
    expect(readTouches(`# a ring\n\n${good}`, 1)).toEqual({
      touches: [
        { row: 4, direction: 0, x: 10.5, y: 0, speed: 1, spindle: 0 },
        { row: 5, direction: 90, x: 0, y: 10.5, speed: 1, spindle: 180 },
      ],
    });
  });

  test.each([
    ['BOM and CRLF', `\uFEFF${good.replaceAll('\n', '\r\n')}`],
    ['semicolons and decimal commas', good.replaceAll(',', ';').replaceAll('.', ',')],
    ['tabs', good.replaceAll(',', '\t')],
    ['quoted cells and blanks', good.replace('10.5', '" 10.5 "').replace('direction', ' "Direction"')],
    ['other order of columns', 'spindle,feed,y,x,direction\n0,60,0,10.5,0\n180,60,10.5,0,90\n'],
    ['comments after a line', good.replace('60,0', '60,0 # first')],
    ['empty cells at the end', good.replaceAll(/$/gm, ',').replace(/,$/, '').replace('spindle,', 'spindle')],
  ])('%s', (_, text) => {
    const read = readTouches(text, 1);
    if ('problems' in read) throw new Error(JSON.stringify(read.problems));
    expect(read.touches.map(({ row: _row, ...touch }) => touch)).toEqual([
      { direction: 0, x: 10.5, y: 0, speed: 1, spindle: 0 },
      { direction: 90, x: 0, y: 10.5, speed: 1, spindle: 180 },
    ]);
  });

  test('inches', () => {
    const read = readTouches('direction,x,y,feed\n0,1,2,60\n', 25.4);
    expect(read).toMatchObject({ touches: [{ x: 25.4, y: 50.8, speed: 25.4 }] });
  });
});

describe('bad input is said with its line', () => {
  test.each([
    ['nothing', '', '0: empty. It needs a header'],
    ['a header alone', 'direction,x,y\n', '0: no touches: nothing follows the header.'],
    ['binary', 'direction\0,x', '0: no text'],
    ['no header', '0,1,2\n3,4,5\n', '1: numbers where the names of the columns belong: direction, x, y'],
    ['a missing column', 'direction,x\n0,1\n', '1: the column y is missing.'],
    ['an unknown column', 'direction,x,y,zz\n0,1,2,3\n', '1: there is no column "zz". There are direction'],
    ['a column twice', 'direction,x,y,x\n0,1,2,3\n', '1: the column x stands twice.'],
    ['NaN', 'direction,x,y\n0,NaN,2\n', '2: x is "NaN", no number.'],
    ['Infinity', 'direction,x,y\n0,Infinity,2\n', '2: x is "Infinity", no number.'],
    ['a number too large', 'direction,x,y\n0,1e999,2\n', '2: x is too large a number.'],
    ['words', 'direction,x,y\nX+,1,2\n', '2: direction is "X+", no number.'],
    ['an empty cell', 'direction,x,y\n0,,2\n', '2: x is empty.'],
    [
      'decimal commas in one line of several',
      'direction,x,y\n0,1.5,2.5\n90,1,5,2,5\n',
      '3: 5 cells where the header names 3. Decimal commas?',
    ],
    [
      'another separator in one line of several',
      'direction,x,y\n0,1,2\n90;1;2\n',
      '3: 1 cell where the header names 3. The header has commas',
    ],
    ['half a line', 'direction,x,y\n0,1,2\n90,1', '3: 2 cells where the header names 3.'],
    ['no direction', 'direction,x,y\n4000,1,2\n', '2: direction is 4000: degrees are expected'],
    [
      'a feed now and then',
      'direction,x,y,feed\n0,1,2,60\n90,1,2,\n',
      '3: feed is empty here and stated in other',
    ],
    ['a spindle angle now and then', 'direction,x,y,spindle\n0,1,2,\n90,1,2,0\n', '2: spindle is empty here'],
    [
      'a place on no machine',
      'direction,x,y\n0,1e9,2\n',
      '2: x is 1000000000: farther than any machine goes.',
    ],
    ['a feed of 0', 'direction,x,y,feed\n0,1,2,0\n', '2: feed is 0; it must be greater than 0.'],
  ])('%s', (_, text, message) => {
    const found = problems(text);
    expect(found.length).toBeGreaterThan(0);
    expect(found[0]).toContain(message);
  });

  test.each([
    [
      'decimal commas',
      '0,10,512,0,004\n90,-0,003,10,498\n180,-10,5,0\n',
      'with decimal commas, which part the cells',
    ],
    ['decimal commas in every cell', '0,0,10,5,0,0\n90,0,0,1,10,5\n', 'with decimal commas'],
    ['semicolons', '0;10,5;0\n90;0;10,5\n180;-10,5;0\n', 'the lines have semicolons: write the header with'],
    ['tabs', '0\t10.5\t0\n90\t0\t10.5\n', 'the lines have tabs: write the header with tabs too.'],
  ])('%s under a header with commas are one fault of the file', (_, body, message) => {
    const found = problems(`# ours\ndirection,x,y\n${body}`);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain('3: the ');
    expect(found[0]).toContain(message);
  });

  test('semicolons with points, tabs with decimal commas, thousands parted are read or said', () => {
    expect(readTouches('direction;x;y\n0;10.5;0\n', 1)).toMatchObject({ touches: [{ x: 10.5 }] });
    expect(readTouches('direction\tx\ty\n0\t10,5\t0\n', 1)).toMatchObject({ touches: [{ x: 10.5 }] });
    expect(problems('direction;x;y\n0;1.010,5;0\n')).toEqual(['2: x is "1.010,5", no number.']);
  });

  test('too long a list, too large a file', () => {
    expect(problems(`direction,x,y\n${'0,1,2\n'.repeat(5001)}`)[0]).toContain('too long: 5001 touches');
    expect(problems('x'.repeat(4_000_001))[0]).toContain('too large');
  });

  test('never an exception, whatever the text', () => {
    const piece = fc.oneof(
      fc.constantFrom('direction', 'x', 'y', 'feed', ',', ';', '\t', '\n', '"', '#', '-', '1', '.', 'e', ' '),
      fc.string(),
    );
    fc.assert(
      fc.property(fc.array(piece), (pieces) => {
        const read = readTouches(pieces.join(''), 1);
        expect('problems' in read ? read.problems.length : read.touches.length).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
  });
});

describe('a sphere', () => {
  test('has azimuth, elevation and z', () => {
    expect(readSphereTouches('azimuth,elevation,x,y,z\n0,-90,1,2,3\n', 1)).toEqual({
      touches: [{ row: 2, azimuth: 0, elevation: -90, x: 1, y: 2, z: 3, speed: null }],
    });
  });

  test('an elevation over 90', () => {
    expect(readSphereTouches('azimuth,elevation,x,y,z\n0,-95,1,2,3\n', 1)).toMatchObject({
      problems: [{ line: 2, message: 'elevation is outside of −90 to 90 degrees.' }],
    });
  });
});
