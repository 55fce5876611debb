import type { DialectName } from '../syntax/dialect.ts';
import { choices } from './choices.ts';
import type { Scope } from './evaluate.ts';
import { maskOf, namesIn } from './modes.ts';
import { activeOffset, offsetNumber, readParameter, unitScale } from './parameters.ts';
import { axisLetters, type State } from './state.ts';
import { add, given, isNumber, scale, subtract, type Value } from './value.ts';

/** Axes A, B, C: degrees, whatever the unit of length. */
export function isRotary(axis: number): boolean {
  return axis >= 3 && axis <= 5;
}

/**
 * Machine coordinate of the work coordinates' zero along an axis, program units: the work offset in force, the shifts
 * of G92 and G52, the tool offset; in the macro family the common offset too. A turned work offset is left out.
 */
export function workZero(axis: number, scope: Scope): Value {
  const tool = scale(scope.state.rig.toolOffset[axis] ?? 0, lengthScale(axis, scope));
  return add(add(activeOrigin(axis, scope), shiftOf(axis, scope)), tool);
}

/** Origin of the work offset in force along an axis, with the common offset of the macro family. */
export function activeOrigin(axis: number, scope: Scope): Value {
  const own = ownOrigin(axis, scope);
  if (scope.dialect !== 'macro' || activeNumber(scope) === null) return own;
  return add(own, readNumber(5201 + axis, scope));
}

/** The same without the common offset. */
export function ownOrigin(axis: number, scope: Scope): Value {
  const number = activeNumber(scope);
  if (number !== null) return readNumber(number + axis, scope);
  const { workOffset } = scope.state.modes;
  return given(`origin:unknown:${workOffset}:${axis}`, 'the work offset in force is not known');
}

function activeNumber({ state }: Scope): number | null {
  const system = activeOffset(state);
  return system === null ? null : offsetNumber(system);
}

/** Names under which the shifts of G92 and G52 are kept. */
export function shiftName(axis: number, form: 'G92' | 'G52', scope: Pick<Scope, 'dialect'>): string {
  if (choices[scope.dialect].localShift === 'with-g92') return String(5211 + axis);
  return `shift:${form.toLowerCase()}:${axisLetters[axis]?.toLowerCase()}`;
}

/** What G92 and G52 shift the axis by, or one of them alone where they are kept apart. */
export function shiftOf(axis: number, scope: Scope, form?: 'G92' | 'G52'): Value {
  if (choices[scope.dialect].localShift === 'own') {
    const own = (f: 'G92' | 'G52') => named(shiftName(axis, f, scope), scope);
    return form === undefined ? add(own('G92'), own('G52')) : own(form);
  }
  const names = namesIn('offsetShift', scope.state.modes.offsetShift);
  if (names.every((name) => name === 'none')) return 0;
  if (names.includes('none') || names.includes('unknown'))
    return given(`shift:${names.join()}:${axis}`, 'whether a shift is in force');
  return named(shiftName(axis, 'G92', scope), scope);
}

/** The codes whose shift is in force: set by the program, and of a length that is not 0. */
export function shiftsIn(state: State, dialect: DialectName): readonly ('G92' | 'G52')[] {
  if (!namesIn('offsetShift', state.modes.offsetShift).some((name) => name === 'G92' || name === 'G52'))
    return [];
  const isSet = (form: 'G92' | 'G52') =>
    axisLetters.some((_, axis) => (state.globals.get(shiftName(axis, form, { dialect })) ?? 0) !== 0);
  if (choices[dialect].localShift === 'own') return (['G92', 'G52'] as const).filter(isSet);
  const { offsetShift } = state.modes;
  const forms = (['G92', 'G52'] as const).filter((form) => offsetShift & maskOf('offsetShift', form));
  return isSet('G92') ? forms : [];
}

/** Degrees by which the work offset in force is turned about Z (G10 R of rs274ngc); 0 where none is known. */
export function offsetTurn(scope: Scope): number {
  const system = scope.dialect === 'rs274ngc' ? activeOffset(scope.state) : null;
  const number = system === null ? null : offsetNumber(system);
  const value = number === null ? 0 : readNumber(number + 9, scope);
  return isNumber(value) ? value : 0;
}

/** Work coordinates as machine coordinates, program units. */
export function toMachine(position: readonly Value[], scope: Scope): Value[] {
  return turnedBy(position, offsetTurn(scope)).map((v, i) => add(v, workZero(i, scope)));
}

/** Machine coordinates, program units, as work coordinates. */
export function fromMachine(machine: readonly Value[], scope: Scope): Value[] {
  return turnedBy(
    machine.map((v, i) => subtract(v, workZero(i, scope))),
    -offsetTurn(scope),
  );
}

/** Makes a change to offsets while the axes stand still: the position is re-expressed. */
export function keepingMachinePosition(scope: Scope, change: () => void): void {
  const { state } = scope;
  const turn = offsetTurn(scope);
  const before = state.position.map((_, i) => workZero(i, scope));
  const machine = turn === 0 ? null : toMachine(state.position, scope);
  change();
  if (machine === null && offsetTurn(scope) === 0) {
    state.position = state.position.map((v, i) => add(v, subtract(before[i] ?? 0, workZero(i, scope))));
  } else {
    const stood = machine ?? state.position.map((v, i) => add(v, before[i] ?? 0));
    state.position = fromMachine(stood, scope);
  }
}

function turnedBy(point: readonly Value[], degrees: number): Value[] {
  if (degrees === 0) return [...point];
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const [x, y] = [point[0] ?? 0, point[1] ?? 0];
  const turned = [...point];
  turned[0] = subtract(scale(x, cos), scale(y, sin));
  turned[1] = add(scale(x, sin), scale(y, cos));
  return turned;
}

function readNumber(number: number, scope: Scope): Value {
  return named(String(number), scope);
}

function named(name: string, scope: Scope): Value {
  const place = { line: scope.line, start: 0, end: 0 };
  return readParameter(name, scope.state, scope.world, scope.dialect, place);
}

function lengthScale(axis: number, scope: Scope): number {
  return isRotary(axis) ? 1 : unitScale(scope.state, scope.world);
}
