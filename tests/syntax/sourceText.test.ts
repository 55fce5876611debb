import { describe, expect, it } from 'vitest';
import { SourceText } from '../../server/syntax/sourceText.ts';

function lines(text: string): string[] {
  const source = SourceText.from(text);
  return Array.from(
    { length: source.lineCount },
    (_, line) => source.line(line) + JSON.stringify(source.lineEnding(line)),
  );
}

describe('lines', () => {
  it.each([
    ['', ['""']],
    ['a', ['a""']],
    ['a\n', ['a"\\n"', '""']],
    ['a\r\nb\rc\n\nd', ['a"\\r\\n"', 'b"\\r"', 'c"\\n"', '"\\n"', 'd""']],
    ['\r\r\n\n\r', ['"\\r"', '"\\r\\n"', '"\\n"', '"\\r"', '""']],
    ['\ufeffG1\n', ['\ufeffG1"\\n"', '""']],
    ['a\u2028b\u0085c', ['a\u2028b\u0085c""']],
  ])('of %j', (text, expected) => {
    expect(lines(text)).toEqual(expected);
    expect(SourceText.from(text).toString()).toBe(text);
  });

  it('outside the text are empty', () => {
    const source = SourceText.from('a\nb');
    expect([source.line(-1), source.line(2), source.lineEnding(7)]).toEqual(['', '', '']);
    expect(source.lineStart(9)).toBe(3);
  });
});

describe('positions count UTF-16 units', () => {
  const text = '\ufeffG1\tX1\r\n(𝛑 é)\rY2\n';
  const source = SourceText.from(text);

  it('line starts count the byte-order mark and the endings', () => {
    expect([0, 1, 2, 3].map((line) => source.lineStart(line))).toEqual([0, 8, 15, 18]);
    expect(source.length).toBe(text.length);
  });

  it.each([
    [0, 0, 0],
    [1, 0, 1],
    [6, 0, 6],
    [7, 0, 6],
    [8, 1, 0],
    [11, 1, 3],
    [15, 2, 0],
    [18, 3, 0],
    [-5, 0, 0],
    [99, 3, 0],
  ])('offset %i is line %i, character %i', (offset, line, character) => {
    expect(source.positionAt(offset)).toEqual({ line, character });
  });
});

describe('an edit', () => {
  const edited = (text: string, ...change: [number, number, number, number, string]) => {
    const [line, start, endLine, end, inserted] = change;
    return SourceText.from(text).edit({ line, start, endLine, end, text: inserted }).toString();
  };

  it.each<[string, string, [number, number, number, number, string], string]>([
    ['inserts', 'G1\nX1', [1, 0, 1, 0, 'Y2 '], 'G1\nY2 X1'],
    ['joins lines, their ending taken out', 'a\r\nb\nc', [0, 1, 1, 0, ''], 'ab\nc'],
    ['takes everything', 'a\nb', [0, 0, 99, 0, ''], ''],
    ['appends behind the last line', 'a\n', [1, 0, 1, 0, 'b\n'], 'a\nb\n'],
    ['clamps a character behind the end of a line', 'a\nb', [0, 99, 0, 99, 'x'], 'ax\nb'],
    ['clamps negative places', 'a\nb', [-1, 5, -1, 5, 'x'], 'xa\nb'],
    ['takes a reversed range as its first place', 'abc', [0, 2, 0, 1, 'x'], 'abxc'],
    ['splits no pair of surrogates that it is not told to', '𝛑x', [0, 2, 0, 3, 'y'], '𝛑y'],
  ])('%s', (_, text, change, expected) => {
    expect(edited(text, ...change)).toBe(expected);
  });

  it('makes one ending of a CR and an LF that come together across a chunk border', () => {
    const text = `${'a\r'.repeat(320)}b\n`.replace(/^((?:a\r){256})/, '$1x');
    const source = SourceText.from(text).edit({ line: 256, start: 0, endLine: 256, end: 2, text: '\n' });
    const fresh = SourceText.from(source.toString());
    expect(source.lineCount).toBe(fresh.lineCount);
    expect(source.lineEnding(255)).toBe('\r\n');
  });

  it('leaves the old text as it was', () => {
    const old = SourceText.from('a\nb');
    old.edit({ line: 0, start: 0, endLine: 1, end: 1, text: 'c' });
    expect(old.toString()).toBe('a\nb');
  });

  it('shares the chunks that it does not touch', () => {
    const old = SourceText.from('G1 X1\n'.repeat(10_000));
    const { text, first, removed, added } = old.splice({
      line: 5000,
      start: 0,
      endLine: 5000,
      end: 0,
      text: 'N1 ',
    });
    expect([removed, added]).toEqual([1, 1]);
    expect(text.chunks.filter((chunk, index) => chunk !== old.chunks[index])).toEqual([text.chunks[first]]);
  });

  it('keeps chunks of sensible size however often a line is split', () => {
    let text = SourceText.from('G1 X1\n'.repeat(1000));
    for (let count = 0; count < 2000; count++)
      text = text.edit({ line: 100, start: 2, endLine: 100, end: 2, text: '\n' });
    expect(text.lineCount).toBe(3001);
    expect(text.chunks.length).toBeLessThan(40);
    expect(Math.max(...text.chunks.map((chunk) => chunk.lineCount))).toBeLessThanOrEqual(320);
  });
});
