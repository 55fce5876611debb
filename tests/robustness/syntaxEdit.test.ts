import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText, type TextChange } from '../../server/syntax/sourceText.ts';
import { randomLine, randomPlainLine } from '../syntax/randomLines.ts';

const ending = fc.constantFrom('\n', '\n', '\r\n', '\r', '\n\r', '\n\n');
const line = fc.oneof(
  { weight: 3, arbitrary: randomPlainLine },
  randomLine,
  fc.constantFrom('', '%', 'G1 X1'),
);
const text = (most: number) =>
  fc
    .tuple(
      fc.array(fc.tuple(line, ending), { maxLength: most, size: 'max' }),
      fc.constantFrom('', 'G1 X1', '\r'),
    )
    .map(([lines, last]) => lines.flat().join('') + last);

/** Places as fractions of whatever the text is then. */
const step = fc.record({
  from: fc.double({ min: 0, max: 1, noNaN: true }),
  span: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 1, noNaN: true })),
  characters: fc.tuple(fc.nat(12), fc.nat(12)),
  text: fc.oneof(fc.constantFrom('', '\n', '\r', 'X', '\r\n', '%\n', '('), text(3), text(400)),
});

interface Step {
  readonly from: number;
  readonly span: number;
  readonly characters: readonly [number, number];
  readonly text: string;
}

function changeOf(current: SourceText, { from, span, characters, text }: Step): TextChange {
  const line = Math.floor(from * current.lineCount);
  const endLine = line + Math.floor(span * span * (current.lineCount - line + 1));
  return { line, start: characters[0], endLine, end: characters[1], text };
}

/** The change on one flat string, worked out with line starts found by a regular expression. */
function changed(whole: string, change: TextChange): string {
  const ends = [...whole.matchAll(/\r\n|\r|\n/g)];
  const starts = [0, ...ends.map((end) => end.index + end[0].length)];
  const offset = (line: number, character: number) => {
    const start = starts[line];
    return start === undefined
      ? whole.length
      : Math.min(start + character, ends[line]?.index ?? whole.length);
  };
  const start = offset(change.line, change.start);
  const end = Math.max(start, offset(change.endLine, change.end));
  return whole.slice(0, start) + change.text + whole.slice(end);
}

function describeSource(source: Source): unknown {
  const { text } = source;
  return {
    whole: text.toString(),
    program: [source.programStart, source.programEnd],
    touch: source.hasTouch(),
    others: [...source.otherLines()],
    lines: Array.from({ length: source.lineCount }, (_, line) => [
      text.line(line),
      text.lineStart(line),
      text.lineEnding(line),
      source.classOf(line),
    ]),
  };
}

describe('a sequence of edits', () => {
  it('equals a fresh text of the same content', { timeout: 120_000 }, () => {
    const property = fc.property(
      text(900),
      fc.array(step, { minLength: 1, maxLength: 8 }),
      (first, steps) => {
        let source = Source.from(SourceText.from(first), dialects.rs274ngc);
        let whole = first;
        for (const one of steps) {
          const change = changeOf(source.text, one);
          whole = changed(whole, change);
          source = source.edit(change);
          expect(source.text.toString()).toBe(whole);
        }
        const fresh = Source.from(SourceText.from(whole), dialects.rs274ngc);
        expect(describeSource(source)).toEqual(describeSource(fresh));
        for (const line of source.otherLines()) expect(source.block(line)).toEqual(fresh.block(line));
      },
    );
    fc.assert(property, { numRuns: 150 });
  });

  it('looks at three chunks at most for an edit of one line', () => {
    let source = Source.from(SourceText.from('G1 X1 Y2\r\n'.repeat(200_000)), dialects.macro);
    for (let count = 0; count < 300; count++) {
      const line = (count * 7919) % source.lineCount;
      source = source.edit({ line, start: 2, endLine: line, end: 4, text: count % 3 ? '\r\n(a)' : '\r' });
      expect(source.chunksScanned).toBeLessThanOrEqual(3);
    }
  });

  it('lets go of a long text of which little is left', () => {
    let source = Source.from(SourceText.from('G1 X1 Y2\n'.repeat(10_000)), dialects.macro);
    source = source.edit({ line: 10, start: 0, endLine: 9_000, end: 0, text: '' });
    expect(source.lineCount).toBe(1011);
    expect(source.chunksScanned).toBe(source.text.chunks.length);
    expect(source.edit({ line: 0, start: 0, endLine: 0, end: 0, text: 'N1' }).chunksScanned).toBe(1);
  });
});
