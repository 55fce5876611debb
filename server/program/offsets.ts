import type { Place } from '../syntax/place.ts';
import type { Word } from '../syntax/tree.ts';
import { operate, placeOf, type Scope } from './evaluate.ts';
import { isNoSystem } from './indexedOrigin.ts';
import { maskOf, onlyCode } from './modes.ts';
import { activeOffset, offsetNumber, offsetOf, readParameter, writeParameter } from './parameters.ts';
import { axesUsedBy, type ReadBlock } from './readBlock.ts';
import { goToReference, storeReference } from './reference.ts';
import { axisLetters } from './state.ts';
import { writeToolTable } from './toolTable.ts';
import { add, given, subtract, type Value } from './value.ts';
import { activeOrigin, keepingMachinePosition, ownOrigin, shiftName, shiftOf } from './workZero.ts';
import type { OffsetWrite } from './world.ts';

/**
 * Codes of group 0 that take the axis words of their block: G10, G92 and kin, G52, and those that go to a reference
 * position (NISTIR 6556, 3.5.5, 3.5.9, 3.5.18). True where there was one.
 */
export function applyOffsets(read: ReadBlock, scope: Scope): boolean {
  const code = axesUsedBy(read);
  switch (code) {
    case null:
      // Axis words of G43.1 are lengths of the tool, where the macro family moves by them (common practice, no source).
      return scope.dialect === 'rs274ngc' && read.codes.some(({ code }) => /^G43\.[12]$/.test(code));
    case 'G10':
      setOffset(read, scope);
      return true;
    case 'G92':
      shiftOrigin(read, scope, 'G92');
      return true;
    case 'G52':
      shiftOrigin(read, scope, 'G52');
      return true;
    case 'G92.1':
    case 'G92.2':
    case 'G92.3':
      endShift(code, scope);
      return false;
    case 'G28.1':
    case 'G30.1':
      if (scope.dialect === 'rs274ngc') storeReference(code, scope);
      return true;
    case 'G28':
    case 'G30':
      goToReference(read, scope);
      return true;
    default:
      // X and U are the time in the macro family.
      return code !== 'G4' || scope.dialect === 'macro';
  }
}

/** Another work offset: the position is re-expressed by the difference of the two origins. `p`: of G54.1, or of G54 P. */
export function selectOffset(code: string, p: Value | undefined, scope: Scope): void {
  const { state, dialect } = scope;
  const extended =
    dialect === 'macro' && (code === 'G54.1' || (code === 'G54' && p !== undefined && p !== 1));
  const select = () => {
    state.modes.workOffset = maskOf('workOffset', extended ? 'G54.1' : code);
    if (extended) state.rig = { ...state.rig, extendedOffset: p ?? 1 };
  };
  const before = activeOffset(state);
  if (before === code && !extended) {
    state.modes.workOffset = maskOf('workOffset', code);
    return;
  }
  if (before !== null) {
    keepingMachinePosition(scope, select);
    return;
  }
  select();
  forgetPosition(scope, 'the work offset in force before is not known');
}

/** A setting of a parameter that holds a work offset; true where it is one. */
export function writeOffsetParameter(name: string, value: Value, place: Place, scope: Scope): boolean {
  if (!/^\d+$/.test(name)) return false;
  const number = Number(name);
  const target = offsetOf(number, scope.dialect);
  if (!target) return false;
  write({ place, system: target.system, axis: target.axis, origin: value, form: 'parameter' }, scope);
  replaceOrigin(number, target.system, target.axis, value, scope);
  return true;
}

function setOffset(read: ReadBlock, scope: Scope): void {
  const kind = read.words.get('L')?.value;
  if (kind !== 2 && kind !== 20) {
    writeToolTable(read, scope);
    return;
  }
  const current = kind === 20 && scope.dialect === 'rs274ngc';
  const p = read.words.get('P')?.value ?? 0;
  const system = systemOf(p, kind === 20 && scope.dialect === 'macro', scope);
  for (const [i, letter] of axisLetters.entries()) {
    const found = read.words.get(letter);
    if (!found || i > 5) continue;
    const place = placeOf(found.word, scope);
    scope.world.used(found.value, 'offset', place, scope.state);
    const value = current ? found.value : writtenValue(found.value, system, i, scope);
    const told = current ? originFor(i, found, scope) : value;
    write({ place, system, axis: i, origin: told, form: current ? 'G10 L20' : 'G10 L2' }, scope);
    if (current) standsAt(system, i, value, scope);
    else moveOrigin(system, i, value, scope);
  }
  turnOffset(read, system, scope);
}

/** G10 L20: the origin of a system comes to lie where the axis reads `value`. */
function standsAt(system: string, axis: number, value: Value, scope: Scope): void {
  const { state } = scope;
  const number = offsetNumber(system);
  const moved = subtract(state.position[axis] ?? 0, value);
  const isActive = system === activeOffset(state);
  if (number === null) {
    state.position[axis] =
      system === 'active' ? value : given(`reset:${scope.line}:${axis}`, 'the origin was moved');
  } else if (isActive) {
    writeParameter(String(number + axis), add(origin(number + axis, scope), moved), state, scope.dialect);
    state.position[axis] = value;
  } else moveOrigin(system, axis, add(activeOrigin(axis, scope), moved), scope);
}

function moveOrigin(system: string, axis: number, value: Value, scope: Scope): void {
  const number = system === 'common' ? 5201 : offsetNumber(system);
  if (number !== null) replaceOrigin(number + axis, system, axis, value, scope);
  else scope.state.position[axis] = given(`reset:${scope.line}:${axis}`, 'the origin was moved');
}

/** G10 L2 R turns a work offset about Z (rs274ngc, common practice, no source). */
function turnOffset(read: ReadBlock, system: string, scope: Scope): void {
  const turn = scope.dialect === 'rs274ngc' ? read.words.get('R')?.value : undefined;
  const number = offsetNumber(system);
  if (turn === undefined || number === null) return;
  keepingMachinePosition(scope, () => writeParameter(String(number + 9), turn, scope.state, scope.dialect));
}

/**
 * Where the origin comes to lie when the axis is told that it stands at a value. A number may be the tip's radius, so
 * it is kept apart (error-model.md, section 4), but not in Z, where it is a height.
 */
function originFor(axis: number, { value, word }: { value: Value; word: Word }, scope: Scope): Value {
  const position = scope.state.position[axis] ?? 0;
  return axis === 2
    ? subtract(position, value)
    : operate('-', position, value, scope, word, { right: word.value });
}

/** Under G91 the macro family adds G10's value to the offset; rs274ngc does not look at the distance mode. */
function writtenValue(value: Value, system: string, axis: number, scope: Scope): Value {
  if (scope.dialect !== 'macro' || onlyCode('distance', scope.state.modes.distance) !== 'G91') return value;
  const number = system === 'common' ? 5201 : offsetNumber(system);
  const before =
    number === null ? given(`origin:added:${axis}`, 'the offset before') : origin(number + axis, scope);
  return add(value, before);
}

function systemOf(p: Value, extended: boolean, scope: Scope): string {
  if (typeof p !== 'number') return !extended && isNoSystem(p, scope) ? 'none' : 'active';
  if (extended) return `G54.1 P${p}`;
  if (p === 0) {
    if (scope.dialect === 'macro') return 'common';
    return activeOffset(scope.state) ?? 'active';
  }
  return ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3'][p - 1] ?? 'active';
}

function shiftOrigin(read: ReadBlock, scope: Scope, form: 'G92' | 'G52'): void {
  const { state, dialect } = scope;
  for (const [i, letter] of axisLetters.entries()) {
    const found = read.words.get(letter);
    if (!found) continue;
    const place = placeOf(found.word, scope);
    scope.world.used(found.value, 'offset', place, state);
    const told = form === 'G92' ? originFor(i, found, scope) : found.value;
    write({ place, system: form, axis: i, origin: told, form }, scope);
    const name = shiftName(i, form, scope);
    const own = shiftOf(i, scope, form);
    const position = state.position[i] ?? 0;
    if (form === 'G92') {
      writeParameter(name, add(own, subtract(position, found.value)), state, dialect);
      state.position[i] = found.value;
    } else {
      writeParameter(name, found.value, state, dialect);
      state.position[i] = add(position, subtract(own, found.value));
    }
  }
  state.modes.offsetShift = maskOf('offsetShift', form);
}

/** G92.1 zeroes the shift, G92.2 suspends it, G92.3 puts back what is kept (NISTIR 6556, 3.5.18). */
function endShift(code: string, scope: Scope): void {
  const { state, dialect } = scope;
  keepingMachinePosition(scope, () => {
    state.modes.offsetShift = maskOf('offsetShift', code === 'G92.3' ? 'G92' : 'none');
    if (code !== 'G92.1') return;
    for (const i of axisLetters.keys())
      for (const form of ['G92', 'G52'] as const)
        writeParameter(shiftName(i, form, scope), 0, state, dialect);
  });
}

function replaceOrigin(number: number, system: string, axis: number, value: Value, scope: Scope): void {
  const { state } = scope;
  const active = activeOffset(state);
  const change = () => writeParameter(String(number), value, state, scope.dialect);
  if (active === system || system === 'common') {
    keepingMachinePosition(scope, change);
    return;
  }
  if (active === null)
    state.position[axis] = given(`moved:${number}`, 'a work offset was written that may be in force');
  change();
}

function origin(number: number, scope: Scope): Value {
  const place = { line: scope.line, start: 0, end: 0 };
  return readParameter(String(number), scope.state, scope.world, scope.dialect, place);
}

function write(offset: Omit<OffsetWrite, 'before'>, scope: Scope): void {
  scope.world.offset({ ...offset, before: ownOrigin(offset.axis, scope) }, scope.state);
}

/** After a change of the origin by an amount that is not known. */
export function forgetPosition(scope: Scope, reason: string): void {
  for (let i = 0; i < 6; i++) scope.state.position[i] = given(`offset:${scope.line}:${i}`, reason);
}
