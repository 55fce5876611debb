import { expect, test } from 'vitest';
import { builtInProfile } from '../../server/profile/profile.ts';
import { noProfileFile } from '../../server/workspace/fileProfile.ts';
import { OpenDocument } from '../../server/workspace/openDocument.ts';

const profile = { ...noProfileFile, profile: builtInProfile };
/** CPU ms. What a piece is meant to take is about 10; the rest is for slow machines, cold code and the collector. */
const longestPiece = 250;
/** Pieces of which nearly all must be short. */
const shortPiece = 30;

/** 50,000 branches: in one piece, reading them took 3 s. */
const branches = Array.from(
  { length: 50_000 },
  (_, i) => `o${i + 1} if [#1 gt ${i}]\n  G1 X${i % 100} F100\no${i + 1} endif`,
);
/** 5,000 touches that stay on the surface: as many findings. */
const touches = Array.from(
  { length: 5_000 },
  (_, i) => `G0 Z50\nG38.2 Z-10 F50\n#${100 + (i % 400)}=#5063\nG0 X${i % 90}`,
);

/** One touch above 20,000 branches: asking each block of them what it may touch took 0.8 s in one piece. */
const touchAbove = ['G0 Z50', 'G38.2 Z-10 F50', '#100=#5063', 'G0 Z50', ...branches.slice(0, 20_000)];

test.each([
  ['50,000 branches', branches],
  ['a touch and 20,000 branches', touchAbove],
  ['5,000 touches', touches],
])('%s are checked in short pieces, when opened and after an edit', { timeout: 240_000 }, (_, lines) => {
  const text = ['G21 G90 G94', ...lines, 'M2', ''].join('\n');
  const opened = OpenDocument.open('file:///part.ngc', 'gcode', 1, text);
  const half = { line: Math.floor(opened.text.lineCount / 2), character: 0 };
  expectShort(pieces(opened));
  expectShort(pieces(opened.changed(2, [{ range: { start: half, end: half }, text: ' ' }])));
});

/** CPU time of each piece of the check, ms. */
function pieces(document: OpenDocument): number[] {
  const program = document.program(profile);
  const took: number[] = [];
  for (let done = false; !done; ) {
    const before = process.cpuUsage();
    done = program.check();
    const { user, system } = process.cpuUsage(before);
    took.push((user + system) / 1000);
  }
  return took;
}

function expectShort(took: readonly number[]): void {
  expect(took.length).toBeGreaterThan(100);
  expect(Math.max(...took)).toBeLessThan(longestPiece);
  const long = took.filter((each) => each > shortPiece);
  expect(long.length / took.length).toBeLessThan(0.1);
}
