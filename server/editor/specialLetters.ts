import type { DialectName } from '../syntax/dialect.ts';

/** Letters to which some codes give a meaning of their own. */
export interface LetterRow {
  readonly letters: readonly string[];
  readonly codes: readonly string[];
  readonly title: string;
  readonly dialect?: DialectName;
  /** In the units in force. */
  readonly isLength?: true;
}

type Row = readonly [letters: string, codes: string, title: string, isLength?: 'length'];

const cycles = 'G73 G74 G81 G82 G83 G84 G85 G86 G87 G88 G89';
const everyAxis = 'XYZABCUVW';
const userCodes = Array.from({ length: 100 }, (_, i) => `M${100 + i}`).join(' ');

/** Both families: NISTIR 6556, 3.5; what it does not have: common practice, no source. */
const common: readonly Row[] = [
  ['XYZABC', 'G10 G92 G52', 'value of the offset along this axis', 'length'],
  ['H', 'G43 G43.2 G43.4 G43.5 G44', 'number of the tool length'],
  ['D', 'G41 G42', 'number of the cutter radius'],
  ['P', 'M96 M98', 'number of the program called'],
  ['L', 'M98', 'how many times it is called'],
  ['IJK', 'G2 G3', 'centre of the arc, from its start', 'length'],
  ['R', 'G2 G3', 'radius of the arc', 'length'],
  ['K', 'G33 G33.1', 'travel for each turn of the spindle', 'length'],
  ['P', 'G64', 'how far the path may stray at corners', 'length'],
  ['R', cycles, 'clear height of the cycle', 'length'],
  ['Q', 'G73 G83', 'depth of each peck', 'length'],
  ['S', 'G96', 'cutting speed, metres or feet per minute'],
  ['R', 'M19', 'angle of the spindle, degrees'],
];

/** G5 to G5.2, G41.1 and on, G76, M50 and on: common practice, no source; the rest NISTIR 6556, 3.5. */
const rs274ngc: readonly Row[] = [
  ['P', 'G4', 'dwell time, seconds'],
  ['L', 'G10', 'what G10 writes: 2 a work offset, 20 one by the present position, 1, 10 and 11 a tool'],
  ['P', 'G10', 'which work offset (1 = G54, 0 = the one in force) or tool is written'],
  ['R', 'G10', 'L2: turn of the coordinates about Z, degrees; else the radius of the tool'],
  ['P', 'G2 G3', 'turns of the arc; without it, one at most'],
  ['IJ', 'G5 G5.1', 'first control point, from the start', 'length'],
  ['PQ', 'G5', 'second control point, from the end', 'length'],
  ['P', 'G5.2', 'weight of the control point'],
  ['L', 'G5.2', 'order of the curve'],
  ['I', 'G33.1', 'how much faster the spindle turns on the way out'],
  ['D', 'G41.1 G42.1', 'diameter of the tool', 'length'],
  ['L', 'G41.1 G42.1', 'orientation of the tool, 0 to 9'],
  [everyAxis, 'G43.1 G43.2', 'tool length offset along this axis', 'length'],
  ['Q', 'G64', 'how far short moves may be drawn together', 'length'],
  ['IJK', 'G76', 'of the thread: I its peak, J the first cut, K its full depth', 'length'],
  ['P', 'G76', 'pitch of the thread', 'length'],
  ['R', 'G76', 'how quickly the cuts get less'],
  ['Q', 'G76', 'angle at which the tool goes in, degrees'],
  ['H', 'G76', 'passes without more depth at the end'],
  ['E', 'G76', 'length of the taper', 'length'],
  ['L', 'G76', 'which ends are tapered'],
  ['P', 'G74 G82 G84 G86 G88 G89', 'dwell at the bottom, seconds'],
  ['IJ', 'G87', 'step to the side before the tool goes in', 'length'],
  ['K', 'G87', 'where the counterbore ends', 'length'],
  ['L', cycles, 'how many times the cycle runs'],
  ['D', 'G96', 'greatest speed of the spindle, turns per minute'],
  ['Q', 'M19', 'seconds to wait for the angle'],
  ['P', 'M19', 'which way round the spindle goes'],
  ['P', 'M50 M51 M52 M53', '0 turns it off, anything else on'],
  ['Q', 'M61', 'number of the tool in the spindle'],
  ['P', 'M62 M63 M64 M65', 'number of the digital output'],
  ['P', 'M66', 'number of the digital input'],
  ['E', 'M66', 'number of the analogue input'],
  ['L', 'M66', 'what is waited for: 0 nothing, 1 a rise, 2 a fall, 3 on, 4 off'],
  ['Q', 'M66', 'seconds to wait at most'],
  ['E', 'M67 M68', 'number of the analogue output'],
  ['Q', 'M67 M68', 'value that is put out'],
  ['PQ', userCodes, 'value handed to the code of this machine'],
];

/** Common practice, no source. */
const macro: readonly Row[] = [
  ['PXU', 'G4', 'dwell time: seconds with a decimal point, milliseconds without one'],
  ['L', 'G10', 'what G10 writes: 2 a work offset, 20 an additional one, 10 to 13 a tool'],
  ['P', 'G10', 'which work offset (1 = G54) or tool is written'],
  ['R', 'G10', 'value that is written', 'length'],
  ['I', 'G12 G13', 'radius of the circle', 'length'],
  ['P', 'G31', 'number of the skip signal'],
  ['P', 'G54 G54.1', 'number of the additional work offset'],
  ['XYZ', 'G51', 'centre of the scaling along this axis', 'length'],
  ['P', 'G51', 'scale'],
  ['IJK', 'G51', 'scale along X, Y or Z'],
  ['XYZ', 'G51.1', 'place on this axis that it is mirrored at', 'length'],
  ['XYZ', 'G50.1', 'axis that is no longer mirrored'],
  ['P', 'G65 G66 G66.1', 'number of the program called'],
  ['L', 'G65 G66 G66.1', 'how many times it is called'],
  ['ABCDEFHIJKMQRSTUVWXYZ', 'G65 G66 G66.1', 'argument of the call'],
  ['XYZ', 'G68', 'centre of the turn along this axis', 'length'],
  ['R', 'G68', 'angle of the turn, degrees'],
  ['R', 'G76', 'clear height of the cycle', 'length'],
  ['Q', 'G76 G87', 'step off the wall', 'length'],
  ['P', 'G73 G74 G76 G82 G83 G84 G86 G87 G88 G89', 'dwell at the bottom, milliseconds'],
  ['KL', cycles, 'how many times the cycle runs'],
  ['S', 'G92', 'greatest speed of the spindle, turns per minute'],
  ['P', 'M97', 'block of this program that is called'],
  ['L', 'M97', 'how many times it is called'],
  ['H', 'M98', 'block of this program that is called'],
  ['P', 'M99', 'block that the caller goes on with'],
];

/** The first row that fits counts. */
export const specialLetters: readonly LetterRow[] = [
  ...rowsOf(rs274ngc, 'rs274ngc'),
  ...rowsOf(macro, 'macro'),
  ...rowsOf(common),
];

function rowsOf(rows: readonly Row[], dialect?: DialectName): LetterRow[] {
  return rows.map(([letters, codes, title, isLength]) => ({
    letters: [...letters],
    codes: codes.split(' '),
    title,
    ...(dialect && { dialect }),
    ...(isLength && { isLength: true as const }),
  }));
}
