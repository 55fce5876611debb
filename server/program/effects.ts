import type { DialectName } from '../syntax/dialect.ts';
import { codesOf } from './codes.ts';
import { type ModeGroup, maskOf } from './modes.ts';

/** A code that puts one mode in force, and nothing else. */
export interface ModeEffect {
  readonly group: ModeGroup;
  readonly mask: number;
  /** Step of NISTIR 6556, Table 8 (order of execution within a block). */
  readonly step: number;
}

/** Modal group of the code table → mode group and step. */
const groupModes: Readonly<Record<string, readonly [ModeGroup, number]>> = {
  'feed mode': ['feedMode', 2],
  spindle: ['spindle', 7],
  overrides: ['overrides', 9],
  plane: ['plane', 11],
  units: ['units', 12],
  'lathe diameter': ['latheDiameter', 12],
  'spindle mode': ['spindleMode', 12],
  'cutter compensation': ['cutterCompensation', 13],
  'tool length': ['toolLength', 14],
  'work offset': ['workOffset', 15],
  'path control': ['pathControl', 16],
  distance: ['distance', 17],
  'arc distance': ['arcDistance', 17],
  'return level': ['returnLevel', 18],
  'macro mode': ['macroMode', 18],
};

/** What a code puts in force: the one place that says what a modal code does. A code that no mode lists makes its mode unknown. */
export function modeEffect(code: string, dialect: DialectName): ModeEffect | undefined {
  return effects[dialect].get(code);
}

function effectsOf(dialect: DialectName): ReadonlyMap<string, ModeEffect> {
  const found = new Map<string, ModeEffect>();
  for (const { code, group } of codesOf(dialect)) {
    const mode = groupModes[group];
    if (mode) found.set(code, { group: mode[0], mask: maskOf(mode[0], code), step: mode[1] });
  }
  return found;
}

const effects = { rs274ngc: effectsOf('rs274ngc'), macro: effectsOf('macro') };

/** Coolant codes act on each other: M7 and M8 may run together (NISTIR 6556, Table 4), M9 ends both. */
export function coolantAfter(code: 'M7' | 'M8' | 'M9', before: number): number {
  if (code === 'M9') return maskOf('coolant', 'M9');
  const other = maskOf('coolant', code === 'M7' ? 'M8' : 'M7');
  const both = maskOf('coolant', 'M7+M8');
  const own = maskOf('coolant', code);
  const joined = before & (other | both) ? both : 0;
  return before & ~(other | both) ? joined | own : joined || own;
}

/** What M2 and M30 put back (NISTIR 6556, 3.6.1); the macro family leaves its own modes, so this is rs274ngc's. */
export const modesAfterEnd: readonly (readonly [ModeGroup, string])[] = [
  ['workOffset', 'G54'],
  ['offsetShift', 'none'],
  ['plane', 'G17'],
  ['distance', 'G90'],
  ['feedMode', 'G94'],
  ['cutterCompensation', 'G40'],
  ['spindle', 'M5'],
  ['motion', 'G1'],
  ['coolant', 'M9'],
  ['overrides', 'M48'],
];

/** Codes that start a canned cycle of holes; G76 of rs274ngc cuts threads and is none. */
export function isCycle(code: string, dialect: DialectName): boolean {
  return cycleCodes.has(code) && (code !== 'G76' || dialect === 'macro');
}

export const motionCodes = new Set(['G0', 'G1', 'G2', 'G3', 'G38.2', 'G38.3', 'G38.4', 'G38.5', 'G80']);
const cycleCodes = new Set(
  ['G73', 'G74', 'G76', 'G81', 'G82', 'G83', 'G84', 'G84.2', 'G84.3'].concat(
    'G85',
    'G86',
    'G87',
    'G88',
    'G89',
  ),
);
/** Codes of group 0 that take the axis words of their block for themselves. */
export const axisUsers = new Set([
  'G4',
  'G10',
  'G10.6',
  'G22',
  'G28',
  'G28.1',
  'G30',
  'G30.1',
  'G52',
  'G53',
  'G92',
  'G65',
  'G66',
  'G68',
  'G68.1',
  'G68.2',
  'G68.3',
  'G68.4',
  'G50',
  'G50.1',
  'G51',
  'G51.1',
  'G16',
  'G15',
  'G92.1',
  'G92.2',
  'G92.3',
]);
