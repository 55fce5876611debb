import { placeOf, type Scope } from './evaluate.ts';
import { unitScale, writeParameter } from './parameters.ts';
import type { ReadBlock } from './readBlock.ts';
import { axisLetters } from './state.ts';
import { setToolEntry } from './toolOffsets.ts';
import { add, isNumber, scale, subtract, type Value } from './value.ts';
import { activeOrigin, isRotary, shiftOf } from './workZero.ts';

/**
 * G10 L1, L10 and L11 of rs274ngc, G10 L10 to L13 of the macro family: lengths and radii of tools (common practice, no
 * source). No origin moves, but what is written is used.
 */
export function writeToolTable(read: ReadBlock, scope: Scope): void {
  for (const letter of [...axisLetters, 'R']) {
    const found = read.words.get(letter);
    if (found) scope.world.used(found.value, 'offset', placeOf(found.word, scope), scope.state);
  }
  const kind = read.words.get('L')?.value;
  const tool = read.words.get('P')?.value;
  if (tool === undefined || !isNumber(tool)) return;
  if (scope.dialect === 'macro') writeNumbered(kind, tool, read, scope);
  else writeEntries(kind, tool, read, scope);
}

function writeEntries(kind: Value | undefined, tool: number, read: ReadBlock, scope: Scope): void {
  const perMm = unitScale(scope.state, scope.world);
  const r = read.words.get('R')?.value;
  if (r !== undefined) setToolEntry(tool, 'diameter', scale(r, 2 / perMm), scope);
  for (const [i, letter] of axisLetters.entries()) {
    const value = read.words.get(letter)?.value;
    if (value === undefined) continue;
    const unit = isRotary(i) ? 1 : perMm;
    const length = kind === 1 ? value : lengthAt(i, value, unit, kind, scope);
    setToolEntry(tool, letter.toLowerCase(), scale(length, 1 / unit), scope);
  }
}

/** L10: the offset with which the axis reads `value` where it stands; L11: in G59.3, without the shifts. */
function lengthAt(axis: number, value: Value, unit: number, kind: Value | undefined, scope: Scope): Value {
  const { state, world, line } = scope;
  const now = scale(state.rig.toolOffset[axis] ?? 0, unit);
  const reading = add(now, subtract(state.position[axis] ?? 0, value));
  if (kind !== 11) return reading;
  const origin = activeOrigin(axis, scope);
  const name = String(5381 + axis);
  const fixture = state.globals.get(name) ?? world.parameter(name, state, { line, start: 0, end: 0 }) ?? 0;
  return add(reading, subtract(add(origin, shiftOf(axis, scope)), fixture));
}

/** L10: length geometry, L11: its wear, L12: radius geometry, L13: its wear; R is the value. */
const firstNumbers: Readonly<Record<number, number>> = { 10: 11_000, 11: 10_000, 12: 13_000, 13: 12_000 };

function writeNumbered(kind: Value | undefined, tool: number, read: ReadBlock, scope: Scope): void {
  const first = typeof kind === 'number' ? firstNumbers[kind] : undefined;
  const r = read.words.get('R')?.value;
  if (first !== undefined && r !== undefined)
    writeParameter(String(first + Math.round(tool)), r, scope.state, scope.dialect);
}
