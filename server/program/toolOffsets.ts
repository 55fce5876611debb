import type { Scope } from './evaluate.ts';
import { placeOf } from './evaluate.ts';
import { readParameter, unitScale } from './parameters.ts';
import type { ReadBlock } from './readBlock.ts';
import type { Rig } from './rig.ts';
import { axisLetters, input, setParameter } from './state.ts';
import { add, given, isEmpty, isNumber, scale, type Value } from './value.ts';
import { isRotary, keepingMachinePosition } from './workZero.ts';

/** T selects a tool, M6 puts it into the spindle, M61 Q says which one is there. */
export function applyTools(read: ReadBlock, scope: Scope): void {
  const { state, world } = scope;
  const t = read.words.get('T');
  if (t) state.rig = { ...state.rig, selectedTool: t.value };
  const change = read.codes.find((c) => c.code === 'M6')?.word;
  if (change) {
    world.toolChange(placeOf(change, scope), state);
    state.rig = loaded(state.rig.selectedTool, state.rig);
  }
  const q = read.codes.some((c) => c.code === 'M61') ? read.words.get('Q') : undefined;
  if (q) state.rig = loaded(q.value, state.rig);
}

function loaded(tool: Value, rig: Rig): Rig {
  return { ...rig, loadedTool: tool, tools: isNumber(tool) ? [tool] : [] };
}

/** Puts the tool offset of a code of that group in force; the axes stand still, so their position reads anew. */
export function applyToolOffset(code: string, read: ReadBlock, scope: Scope): void {
  const { state } = scope;
  const toolOffset = offsetsFor(code, read, scope);
  keepingMachinePosition(scope, () => {
    state.rig = { ...state.rig, toolOffset, lengthsOf: lengthsOf(code, read, scope) };
  });
}

/** The H number of rs274ngc is a tool; in the macro family it is an entry that is taken to be the loaded tool's. */
function lengthsOf(code: string, read: ReadBlock, { state, dialect }: Scope): readonly number[] {
  if (code !== 'G43' && code !== 'G44') return [];
  const h = read.words.get('H')?.value;
  if (h === undefined || dialect === 'macro') return state.rig.tools;
  return isNumber(h) && h !== 0 ? [h] : [];
}

/** Entry of the tool table, mm or degrees; `field` is an axis letter in lower case or `diameter`. */
export function toolEntry(tool: Value, field: string, scope: Scope): Value {
  const { state, world, line } = scope;
  if (!isNumber(tool)) return field === 'z' ? given(`tool-length:${line}`, 'a tool that is not known') : 0;
  const name = toolName(tool, field);
  const kept = state.globals.get(name) ?? world.parameter(name, state, { line, start: 0, end: 0 });
  return kept ?? (field === 'z' || field === 'diameter' ? input(name) : 0);
}

/** Writes an entry of the tool table, mm or degrees. */
export function setToolEntry(tool: number, field: string, value: Value, scope: Scope): void {
  setParameter(scope.state, 'globals', toolName(tool, field), value);
}

function toolName(tool: number, field: string): string {
  return `tool:${Math.round(tool)}:${field}`;
}

function offsetsFor(code: string, read: ReadBlock, scope: Scope): readonly Value[] {
  const now = scope.state.rig.toolOffset;
  if (code === 'G49' || code === 'G49.1') return now.map(() => 0);
  if (scope.dialect === 'macro') return macroOffsets(code, read, scope);
  const h = read.words.get('H')?.value;
  if (code === 'G43') return tableOffsets(h ?? scope.state.rig.loadedTool, scope);
  const own = h === undefined ? writtenOffsets(read, scope) : tableOffsets(h, scope);
  if (code === 'G43.2') return now.map((v, i) => add(v, own[i] ?? 0));
  return now.map((v, i) => (read.words.has(axisLetters[i] ?? '') ? (own[i] ?? v) : v));
}

function tableOffsets(tool: Value, scope: Scope): Value[] {
  if (tool === 0) return axisLetters.map(() => 0);
  return axisLetters.map((letter) => toolEntry(tool, letter.toLowerCase(), scope));
}

/** Axis words of G43.1 and G43.2: offsets in the block itself. */
function writtenOffsets(read: ReadBlock, scope: Scope): Value[] {
  const perMm = unitScale(scope.state, scope.world);
  return axisLetters.map((letter, i) =>
    scale(read.words.get(letter)?.value ?? 0, isRotary(i) ? 1 : 1 / perMm),
  );
}

/** The macro family offsets Z by wear and geometry of the H number, G44 the other way. */
function macroOffsets(code: string, read: ReadBlock, scope: Scope): readonly Value[] {
  const { toolOffset } = scope.state.rig;
  const h = read.words.get('H')?.value;
  const known = code === 'G43' || code === 'G44';
  if (!known || h === undefined || !isNumber(h))
    return toolOffset.map((v, i) =>
      i === 2 ? given(`tool-length:${scope.line}`, 'the tool length offset changed') : v,
    );
  const sign = code === 'G44' ? -1 : 1;
  const length = h === 0 ? 0 : add(offsetNumber(10_000 + h, scope), offsetNumber(11_000 + h, scope));
  return toolOffset.map((_, i) => (i === 2 ? scale(length, sign / unitScale(scope.state, scope.world)) : 0));
}

function offsetNumber(number: number, scope: Scope): Value {
  const { state, world, dialect, line } = scope;
  const value = readParameter(String(number), state, world, dialect, { line, start: 0, end: 0 });
  return isEmpty(value) ? 0 : value;
}
