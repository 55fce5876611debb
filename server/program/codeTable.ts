import type { DialectName } from '../syntax/dialect.ts';
import type { CodeRow } from './codeRow.ts';
import type { Code } from './codes.ts';
import { macroCodes } from './macroCodes.ts';
import { rs274ngcCodes } from './rs274ngcCodes.ts';

/** Both families. Groups: NISTIR 6556, table 4. */
const common: readonly CodeRow[] = [
  ['G0', 'motion', 'rapid move', 'Moves in a straight line, or axis by axis, as fast as the machine can.'],
  ['G1', 'motion', 'straight feed move', 'Moves in a straight line at the feed rate F.'],
  ['G2', 'motion', 'clockwise arc', 'Arc in the active plane, clockwise, centre by I J K or radius by R.'],
  [
    'G3',
    'motion',
    'counter-clockwise arc',
    'Arc in the active plane, counter-clockwise, centre by I J K or radius by R.',
  ],
  ['G4', 'non-modal', 'dwell', 'Waits for the time P.'],
  [
    'G10',
    'non-modal',
    'set data',
    'L2 writes a work offset P; L20 (where known) sets it so that the present position reads as given.',
  ],
  ['G17', 'plane', 'XY plane', 'Arcs, cycles and cutter compensation work in the XY plane.'],
  ['G18', 'plane', 'ZX plane', 'Arcs, cycles and cutter compensation work in the ZX plane.'],
  ['G19', 'plane', 'YZ plane', 'Arcs, cycles and cutter compensation work in the YZ plane.'],
  ['G20', 'units', 'inches', 'Lengths and feeds are in inches from here on.'],
  ['G21', 'units', 'millimetres', 'Lengths and feeds are in millimetres from here on.'],
  [
    'G28',
    'non-modal',
    'go to reference point',
    'Moves by way of the point given to the stored reference point.',
  ],
  [
    'G30',
    'non-modal',
    'go to second reference point',
    'Moves by way of the point given to the second stored reference point.',
  ],
  ['G33', 'motion', 'spindle-synchronized move', 'Feed tied to the spindle’s turn: thread cutting.'],
  [
    'G40',
    'cutter compensation',
    'cutter compensation off',
    'The programmed path is the path of the tool centre.',
  ],
  [
    'G41',
    'cutter compensation',
    'cutter compensation left',
    'The tool runs left of the programmed path by its radius.',
  ],
  [
    'G42',
    'cutter compensation',
    'cutter compensation right',
    'The tool runs right of the programmed path by its radius.',
  ],
  ['G43', 'tool length', 'tool length offset', 'Applies the tool length of the H number.'],
  ['G49', 'tool length', 'tool length offset off', 'No tool length is applied: Z refers to the spindle.'],
  [
    'G52',
    'non-modal',
    'shift of the work coordinates',
    'Shifts all work coordinates by the values given; G52 X0 Y0 Z0 takes it back.',
  ],
  [
    'G53',
    'non-modal',
    'machine coordinates',
    'The G0 or G1 of this block goes to a position in machine coordinates.',
  ],
  ['G54', 'work offset', 'work offset 1', 'Positions refer to work offset 1.'],
  ['G55', 'work offset', 'work offset 2', 'Positions refer to work offset 2.'],
  ['G56', 'work offset', 'work offset 3', 'Positions refer to work offset 3.'],
  ['G57', 'work offset', 'work offset 4', 'Positions refer to work offset 4.'],
  ['G58', 'work offset', 'work offset 5', 'Positions refer to work offset 5.'],
  ['G59', 'work offset', 'work offset 6', 'Positions refer to work offset 6.'],
  ['G59.1', 'work offset', 'work offset 7', 'Positions refer to work offset 7.'],
  ['G59.2', 'work offset', 'work offset 8', 'Positions refer to work offset 8.'],
  ['G59.3', 'work offset', 'work offset 9', 'Positions refer to work offset 9.'],
  ['G61', 'path control', 'exact path', 'The path is kept exactly; the axes may stop at corners.'],
  ['G61.1', 'path control', 'exact stop', 'Every move comes to a full stop at its end.'],
  [
    'G64',
    'path control',
    'continuous path',
    'Corners are rounded to keep the speed up; a P word, where known, bounds by how much.',
  ],
  ['G90', 'distance', 'absolute positions', 'Axis words are positions.'],
  ['G91', 'distance', 'incremental distances', 'Axis words are distances from the present position.'],
  [
    'G92',
    'non-modal',
    'set the present position',
    'Shifts all work offsets so that the present position reads as given.',
  ],
  ['G92.1', 'non-modal', 'cancel the G92 shift', 'Takes the shift back and zeroes its parameters.'],
  ['G93', 'feed mode', 'inverse time feed', 'F is one over the minutes that the block takes.'],
  ['G94', 'feed mode', 'feed per minute', 'F is a feed in length units per minute.'],
  ['G95', 'feed mode', 'feed per turn', 'F is a feed in length units per turn of the spindle.'],
  [
    'G96',
    'spindle mode',
    'constant surface speed',
    'S is a cutting speed; the spindle follows the diameter.',
  ],
  ['G97', 'spindle mode', 'constant spindle speed', 'S is turns per minute.'],
  ['G98', 'return level', 'return to the initial level', 'A canned cycle ends at the level where it began.'],
  ['G99', 'return level', 'return to the R level', 'A canned cycle ends at the level R.'],
  ['M0', 'stopping', 'program stop', 'Stops until the operator starts again.'],
  ['M1', 'stopping', 'optional stop', 'Stops where the optional-stop switch is on.'],
  ['M2', 'stopping', 'program end', 'Ends the program and resets modes.'],
  ['M3', 'spindle', 'spindle clockwise', 'Turns the spindle clockwise at the speed S.'],
  ['M4', 'spindle', 'spindle counter-clockwise', 'Turns the spindle counter-clockwise at the speed S.'],
  ['M5', 'spindle', 'spindle stop', 'Stops the spindle.'],
  ['M6', 'tool change', 'tool change', 'Puts the tool selected by T into the spindle.'],
  ['M7', 'coolant', 'mist coolant on', 'Turns mist coolant on.'],
  ['M8', 'coolant', 'flood coolant on', 'Turns flood coolant on.'],
  ['M9', 'coolant', 'coolant off', 'Turns all coolant off.'],
  ['M19', '', 'orient the spindle', 'Turns the spindle to an angle and holds it there.'],
  ['M30', 'stopping', 'program end, rewind', 'Ends the program, resets modes and goes back to its start.'],
  ['M48', 'overrides', 'overrides on', 'The operator’s feed and speed overrides work.'],
  ['M49', 'overrides', 'overrides off', 'The operator’s feed and speed overrides are ignored.'],
  ['M60', 'stopping', 'pallet change, stop', 'Changes pallets and stops.'],
  ['M98', '', 'subroutine call', 'Calls the program P, repeated L times.'],
  ['M99', '', 'end of subroutine', 'Goes back to the caller; in a main program, starts it again.'],
];

const rows = (list: readonly CodeRow[], dialects: readonly DialectName[]): Code[] =>
  list.map(([code, group, title, help]) => ({ code, group, title, help, dialects }));

/** Every G and M code with a meaning of its own; a code whose group differs between dialects stands twice. */
export const codeTable: readonly Code[] = [
  ...rows(common, ['rs274ngc', 'macro']),
  ...rows(rs274ngcCodes, ['rs274ngc']),
  ...rows(macroCodes, ['macro']),
];
