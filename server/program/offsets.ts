import type { Place } from '../syntax/place.ts';
import type { Word } from '../syntax/tree.ts';
import { operate, placeOf, type Scope } from './evaluate.ts';
import { maskOf, onlyCode } from './modes.ts';
import { activeOffset, offsetNumber, offsetOf, readParameter, writeParameter } from './parameters.ts';
import { axesUsedBy, type ReadBlock } from './readBlock.ts';
import { axisLetters } from './state.ts';
import { add, given, subtract, type Value } from './value.ts';
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
      scope.state.modes.offsetShift = maskOf('offsetShift', code === 'G92.3' ? 'G92' : 'none');
      forgetPosition(scope, 'the shift of the origin changed');
      return false;
    case 'G28':
    case 'G30':
      goToReference(read, scope);
      return true;
    default:
      return code !== 'G4';
  }
}

/** Another work offset: the position is re-expressed by the difference of the two origins. */
export function selectOffset(code: string, scope: Scope): void {
  const { state } = scope;
  const before = activeOffset(state);
  if (before === code) return;
  const from = before === null ? null : offsetNumber(before);
  const to = offsetNumber(code);
  if (from === null || to === null) {
    forgetPosition(scope, 'the work offset in force before is not known');
    return;
  }
  for (let i = 0; i < 6; i++) {
    const difference = subtract(origin(from + i, scope), origin(to + i, scope));
    state.position[i] = add(state.position[i] ?? 0, difference);
  }
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
  const p = read.words.get('P')?.value ?? 0;
  const current = kind === 20 && scope.dialect === 'rs274ngc';
  if (kind !== 2 && kind !== 20) {
    tellToolTable(read, scope);
    return;
  }
  const system = systemOf(p, kind === 20 && scope.dialect === 'macro', scope);
  for (const [i, letter] of axisLetters.entries()) {
    const found = read.words.get(letter);
    if (!found || i > 5) continue;
    const place = placeOf(found.word, scope);
    const value = writtenValue(found.value, i, scope);
    const position = scope.state.position[i] ?? 0;
    const isActive = system === activeOffset(scope.state);
    const number = offsetNumber(system);
    scope.world.used(found.value, 'offset', place, scope.state);
    const old =
      number === null
        ? given(`origin:${system}:${i}`, 'an origin that is not known')
        : origin(number + i, scope);
    const moved = current ? subtract(position, value) : value;
    const told = current ? originFor(i, found, scope) : value;
    write({ place, system, axis: i, origin: told, form: current ? 'G10 L20' : 'G10 L2' }, scope);
    if (number === null) {
      scope.state.position[i] =
        current && system === 'active' ? value : given(`reset:${scope.line}:${i}`, 'the origin was moved');
    } else if (current && isActive) {
      writeParameter(String(number + i), add(old, moved), scope.state, scope.dialect);
      scope.state.position[i] = value;
    } else {
      replaceOrigin(number + i, system, i, current ? add(old, moved) : value, scope);
    }
  }
}

/** G10 with another L writes lengths and radii of tools: no origin moves, but what is written is used. */
function tellToolTable(read: ReadBlock, scope: Scope): void {
  for (const letter of [...axisLetters, 'R']) {
    const found = read.words.get(letter);
    if (found) scope.world.used(found.value, 'offset', placeOf(found.word, scope), scope.state);
  }
}

/**
 * Where the origin comes to lie when the axis is told that it stands at a value. A number may be the tip's radius, so
 * it is kept apart (error-model.md, section 4), but not in Z, where it is a height.
 */
function originFor(axis: number, { value, word }: { value: Value; word: Word }, scope: Scope): Value {
  const position = scope.state.position[axis] ?? 0;
  return axis === 2 ? subtract(position, value) : operate('-', position, value, scope, word);
}

/** Under G91 the macro family adds G10's value to the offset; rs274ngc does not look at the distance mode. */
function writtenValue(value: Value, axis: number, scope: Scope): Value {
  if (scope.dialect !== 'macro' || onlyCode('distance', scope.state.modes.distance) !== 'G91') return value;
  return add(value, given(`origin:added:${axis}`, 'the offset as it was before'));
}

function systemOf(p: Value, extended: boolean, scope: Scope): string {
  if (typeof p !== 'number') return 'active';
  if (extended) return `G54.1 P${p}`;
  if (p === 0) {
    if (scope.dialect === 'macro') return 'common';
    return activeOffset(scope.state) ?? 'active';
  }
  return ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3'][p - 1] ?? 'active';
}

function shiftOrigin(read: ReadBlock, scope: Scope, form: 'G92' | 'G52'): void {
  const { state } = scope;
  for (const [i, letter] of axisLetters.entries()) {
    const found = read.words.get(letter);
    if (!found) continue;
    const place = placeOf(found.word, scope);
    scope.world.used(found.value, 'offset', place, state);
    const told = form === 'G92' ? originFor(i, found, scope) : found.value;
    write({ place, system: form, axis: i, origin: told, form }, scope);
    if (form === 'G92') state.position[i] = found.value;
    else state.position[i] = given(`shift:${scope.line}:${i}`, 'the origin was shifted');
  }
  state.modes.offsetShift = maskOf('offsetShift', form);
}

function goToReference(read: ReadBlock, scope: Scope): void {
  const { state, world } = scope;
  const named = axisLetters.flatMap((letter, i) => (read.words.has(letter) ? [i] : []));
  const axes = named.length > 0 ? named : [0, 1, 2, 3, 4, 5];
  const word = read.codes.find((c) => c.code === 'G28' || c.code === 'G30')?.word;
  const to = state.position.map((v, i) =>
    axes.includes(i) ? given(`reference:${i}`, 'the reference position') : v,
  );
  if (word)
    world.motion(
      { kind: 'reference', place: placeOf(word, scope), from: [...state.position], to, axes },
      state,
    );
  state.position = to;
}

function replaceOrigin(number: number, system: string, axis: number, value: Value, scope: Scope): void {
  const { state } = scope;
  const active = activeOffset(state);
  if (active === system) {
    const difference = subtract(origin(number, scope), value);
    state.position[axis] = add(state.position[axis] ?? 0, difference);
  } else if (active === null) {
    state.position[axis] = given(`moved:${number}`, 'a work offset was written that may be in force');
  }
  writeParameter(String(number), value, state, scope.dialect);
}

function origin(number: number, scope: Scope): Value {
  const place = { line: scope.line, start: 0, end: 0 };
  return readParameter(String(number), scope.state, scope.world, scope.dialect, place);
}

function write(offset: OffsetWrite, scope: Scope): void {
  scope.world.offset(offset, scope.state);
}

/** After a change of the origin by an amount that is not known. */
export function forgetPosition(scope: Scope, reason: string): void {
  for (let i = 0; i < 6; i++) scope.state.position[i] = given(`offset:${scope.line}:${i}`, reason);
}
