// A long finishing program as a CAM system writes it: invented paths, with a probing block now and then.
import { closeSync, openSync, writeSync } from 'node:fs';

const blocksBetweenTouches = 50_000;

/**
 * Writes a program of `blocks` blocks (about 40 bytes each), the same for the same seed. All touches are sound but the
 * last, which traverses from the trip. Gives the 1-based line of that touch. `incremental`: in G91; `wide`: one
 * character of a comment takes two bytes in UTF-16.
 */
export function writeProgram(file, { blocks, seed, incremental = false, wide = false }) {
  const random = mulberry32(seed);
  const output = openSync(file, 'w');
  let pending = [];
  let lines = 0;
  const flush = () => {
    writeSync(output, pending.map((line) => `${line}\n`).join(''));
    pending = [];
  };
  const write = (line) => {
    lines++;
    if (pending.push(line) === 10_000) flush();
  };

  for (const line of [
    `(finishing pass of an invented plate${wide ? ' ∅' : ''})`,
    `G21 ${incremental ? 'G91' : 'G90'} G94 G17 G40 G49 G80`,
    'T1 M6',
    'G54',
    'S9000 M3',
  ])
    write(line);
  let x = 0;
  let y = 0;
  let number = 10;
  while (lines < blocks - 20) {
    if (lines % blocksBetweenTouches === 0) for (const line of soundTouch) write(line);
    const [fromX, fromY] = incremental ? [0, 0] : [x, y];
    x = fromX + random() * 2 - 1;
    y = fromY + random() * 2 - 1;
    const z = -random() * 3;
    const code = random() < 0.05 ? 'G0' : 'G1';
    const feed = random() < 0.1 ? ` F${400 + Math.floor(random() * 2000)}` : '';
    write(`N${number} ${code} X${x.toFixed(4)} Y${y.toFixed(4)} Z${z.toFixed(4)}${feed}`);
    number = number >= 99_990 ? 10 : number + 5; // NISTIR 6556, 3.3.1: at most five digits
  }
  for (const line of ['G0 Z50', 'M5', 'T99 M6', 'G0 X0 Y0']) write(line);
  write('G38.2 Z-10 F100');
  const faultLine = lines;
  write('G0 X50');
  while (lines < blocks - 1) write('G0 Z50');
  write('M2');
  flush();
  closeSync(output);
  return faultLine;
}

const soundTouch = [
  'M5',
  'T99 M6',
  'G0 Z50',
  'G38.2 Z-10 F100',
  '#<_height> = #5063',
  'G0 Z50',
  'T1 M6',
  'S9000 M3',
];

/** A small generator of numbers in [0, 1): the same row for the same seed on every machine. */
function mulberry32(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
