import type { Handover } from '../analysis/model.ts';
import { ChunkFacts } from '../syntax/chunkFacts.ts';
import { parseBlock } from '../syntax/parseBlock.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import { codesIn, lineName } from './blockFacts.ts';
import type { Report, Rule } from './rule.ts';

export const shiftLeftActive: Rule = {
  id: 'shift-left-active',
  severity: 'warning',
  title: 'G92 or G52 left active',
  what: 'A shift of the work coordinates by G92 or G52 is still in force on some path where the program ends or a subroutine gives back to its caller. In rs274ngc M2 and M30 undo it; a shift that the caller takes back is not reported.',
  why: 'The shift lies over every work offset: all that runs next is displaced by it, and nothing on the screen of offsets shows why.',
  instead:
    'Write the work offset itself (G10 L2 or L20), or take the shift back before the end: G52 X0 Y0 Z0, or G92.1.',
  source:
    'NISTIR 6556, 3.5.18 (G92) and 3.6.1 (M2, M30); G52 and the macro family: common practice, no source',
  fails: [
    { dialect: 'macro', program: 'G21 G90 G94\nG52 X40. Y20.\nG1 X5. F300.\nM30\n' },
    {
      dialect: 'rs274ngc',
      program: 'o<set> sub\n  G92 X0 Y0\no<set> endsub\nG21 G90 G94\no<set> call\nG1 X5 F300\nM2\n',
    },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\nG92 X0 Y0\nG1 X5 F300\nM2\n' },
    { dialect: 'macro', program: 'G21 G90 G94\nG52 X40. Y20.\nG1 X5. F300.\nG52 X0. Y0.\nM30\n' },
  ],
  *check({ analysis: { source, handovers } }) {
    const left = handovers.filter((each) => leftBehind(each).length > 0);
    if (left.length === 0) return;
    const written = [...shiftBlocks(source)];
    const ends = new Set(left.filter(({ kind }) => kind === 'program-end').map(({ place }) => place.line));
    const told = new Set<number>();
    for (const each of left) {
      const { kind, place, openSubroutine } = each;
      if (told.has(place.line)) continue;
      // Told once, where the last one of the file hands over; a caller that takes the shift back is none.
      if (kind === 'return' && !openSubroutine && (ends.size > 0 || written.some(({ ends: takes }) => takes)))
        continue;
      told.add(place.line);
      yield report(each, written);
    }
  },
};

function leftBehind({ kind, shifts, shiftsBefore }: Handover): readonly string[] {
  return kind === 'program-end' ? shifts : shifts.filter((form) => !shiftsBefore.includes(form));
}

function report(each: Handover, written: readonly ShiftBlock[]): Report {
  const codes = leftBehind(each);
  const by = written.find(({ code, ends }) => !ends && codes.includes(code));
  const where = by ? ` (${lineName(by.place.line)})` : '';
  const next = each.kind === 'return' ? 'the caller' : 'every program that runs next';
  return {
    message: `The shift by ${codes.join(' and ')}${where} is still in force here: ${next} works in displaced coordinates.`,
    place: each.place,
    related: by ? [{ message: 'the shift', place: by.place }] : [],
  };
}

interface ShiftBlock {
  readonly code: string;
  /** It takes a shift back. */
  readonly ends: boolean;
  readonly place: Place;
}

function* shiftBlocks(source: Source): Iterable<ShiftBlock> {
  for (const { firstLine, fact } of shiftCodes.in(source))
    for (const each of fact)
      if (source.classOf(firstLine + each.place.line) === 2)
        yield { ...each, place: { ...each.place, line: firstLine + each.place.line } };
}

/** Lines are counted in the chunk. */
const shiftCodes = new ChunkFacts<readonly ShiftBlock[]>((chunk, lines, dialect) => {
  const found = lines.flatMap((line) => {
    const text = chunk.line(line);
    if (!/g[\s0]*(?:9\s*2|5\s*2)/i.test(text)) return [];
    const block = parseBlock(text, dialect);
    return codesIn(block).flatMap(({ code, word }): ShiftBlock[] => {
      if (code === null || !/^G(52|92(\.[12])?)$/.test(code)) return [];
      const axes = block.items.filter((item) => item.kind === 'word' && /^[A-CU-Z]$/.test(item.letter));
      const isZero = axes.every(
        (item) => item.kind === 'word' && item.value.kind === 'number' && item.value.value === 0,
      );
      const ends = code === 'G52' ? isZero : code !== 'G92';
      return [{ code, ends, place: { line, start: word.start, end: word.end } }];
    });
  });
  return found.length > 0 ? found : null;
});
