import type { DialectName } from '../syntax/dialect.ts';
import { dialects } from '../syntax/dialects.ts';
import { readMessage } from '../syntax/messages.ts';
import type { Place } from '../syntax/place.ts';
import type { Block, Expression } from '../syntax/tree.ts';
import { coolantAfter, cycleCodes, modeEffects, modesAfterEnd, motionCodes } from './effects.ts';
import { evaluate, parameterName, placeOf, type Scope } from './evaluate.ts';
import { allModes, type ModeMasks, maskOf, unknown } from './modes.ts';
import { moveBlock } from './move.ts';
import { applyOffsets, selectOffset, writeOffsetParameter } from './offsets.ts';
import { unitScale, writeParameter } from './parameters.ts';
import { type ReadBlock, readBlock } from './readBlock.ts';
import { rescale, restoreModes } from './restoreModes.ts';
import type { State } from './state.ts';
import { given, scale, type Value } from './value.ts';
import type { World } from './world.ts';

/** How the program goes on after a block; calls and jumps are the driver's. */
export type Ending = 'program-end' | 'alarm' | null;

/**
 * Runs one block on the state, in the order of NISTIR 6556, Table 8. All values are read before any setting takes
 * effect (3.3.3). The state is changed in place.
 */
export function execute(
  block: Block,
  line: number,
  state: State,
  world: World,
  dialect: DialectName,
): Ending {
  const scope: Scope = { state, world, dialect, line };
  const settings = readSettings(block, scope);
  const read = readBlock(block, scope);
  for (const { name, value, expression, place } of settings) assign(name, value, expression, place, scope);
  const ending = settings.some((s) => dialect === 'macro' && s.name === '3000') ? 'alarm' : null;
  tellOutputs(block, scope);
  const stop = runWords(read, scope);
  return ending ?? stop ?? (aborts(block, dialect) ? 'alarm' : null);
}

interface SettingValue {
  readonly name: string | null;
  readonly value: Value;
  readonly expression: Expression;
  readonly place: Place;
}

function readSettings(block: Block, scope: Scope): SettingValue[] {
  const settings: SettingValue[] = [];
  for (const item of block.items)
    if (item.kind === 'setting')
      settings.push({
        name: parameterName(item.target, scope),
        value: evaluate(item.value, scope),
        expression: item.value,
        place: placeOf(item, scope),
      });
  return settings;
}

/** Puts a value into a parameter; tells its use, and a write of a work offset. */
export function assign(
  name: string | null,
  value: Value,
  expression: Expression,
  place: Place,
  scope: Scope,
): void {
  const { state, world, dialect } = scope;
  world.used(value, isCopy(expression) ? 'copy' : 'arithmetic', place, state);
  // A setting whose number is not known may have hit any parameter: what is known of the others is kept, as it is
  // far more often a table of results than one of the program's own variables.
  if (name === null) return;
  if (writeOffsetParameter(name, value, place, scope)) return;
  writeParameter(name, value, state, dialect);
}

function isCopy(e: Expression): boolean {
  return e.kind === 'parameter' || e.kind === 'number' || (e.kind === 'unary' && isCopy(e.operand));
}

function runWords(read: ReadBlock, scope: Scope): Ending {
  const { state, world } = scope;
  const has = (code: string) => read.codes.some((c) => c.code === code);
  world.block?.(read, state);
  const restored = keepModes(read, scope);
  applyModes(read, scope);
  applyFeed(read, scope);
  if (has('M3') || has('M4')) state.modes.orientation = maskOf('orientation', 'turned');
  if (has('M19')) {
    state.modes.orientation = maskOf('orientation', 'M19');
    state.modes.spindle = maskOf('spindle', 'M5');
  }
  if (has('M6')) {
    const word = read.codes.find((c) => c.code === 'M6')?.word;
    if (word) world.toolChange(placeOf(word, scope), state);
    // The change stops the spindle (NISTIR 6556, 3.6.3); an M3 in the same block comes after it (Table 8).
    if (!has('M3') && !has('M4')) state.modes.spindle = maskOf('spindle', 'M5');
  }
  for (const c of ['M7', 'M8', 'M9'] as const)
    if (has(c)) state.modes.coolant = coolantAfter(c, state.modes.coolant);
  if (restored) restoreModes(restored, scope);
  const axesTaken = applyOffsets(read, scope);
  if (read.variableCode) state.modes.motion = unknown;
  if (!axesTaken || has('G53')) moveBlock(read, scope);
  if (has('M2') || has('M30')) return endProgram(scope);
  return null;
}

/** M70 and M73 keep the modes, M72 puts them back, M71 forgets them (common practice, no source). */
function keepModes(read: ReadBlock, scope: Scope): ModeMasks | null {
  if (scope.dialect !== 'rs274ngc') return null;
  const { state } = scope;
  for (const { code } of read.codes) {
    if (code === 'M70' || code === 'M73')
      state.saved = { modes: { ...state.modes }, restoreOnReturn: code === 'M73' };
    if (code === 'M71') state.saved = null;
    if (code === 'M72') return state.saved?.modes ?? allModes(unknown);
  }
  return null;
}

function applyModes(read: ReadBlock, scope: Scope): void {
  const { state } = scope;
  const effects = read.codes
    .map(({ code }) => ({ code, effect: modeEffects.get(code) }))
    .sort((a, b) => (a.effect?.step ?? 99) - (b.effect?.step ?? 99));
  for (const { code, effect } of effects) {
    if (motionCodes.has(code)) state.modes.motion = maskOf('motion', code);
    else if (cycleCodes.has(code)) state.modes.motion = maskOf('motion', 'cycle');
    if (!effect) continue;
    const before = state.modes[effect.group];
    if (effect.group === 'units') changeUnits(state, code, scope.world);
    if (effect.group === 'workOffset') selectOffset(code, scope);
    state.modes[effect.group] = effect.mask;
    if (effect.group === 'toolLength' && before !== effect.mask)
      state.position[2] = given(`tool-length:${scope.line}`, 'the tool length offset changed');
  }
}

/** Lengths that the program holds are re-expressed in the new unit (NISTIR 6556, 3.5.7). */
function changeUnits(state: State, code: string, world: World): void {
  rescale({ state }, (code === 'G20' ? 1 / 25.4 : 1) / unitScale(state, world));
}

function applyFeed(read: ReadBlock, scope: Scope): void {
  const f = read.words.get('F');
  if (!f) return;
  const { state, world } = scope;
  world.used(f.value, 'motion', placeOf(f.word, scope), state);
  const perMinute = state.modes.feedMode & ~(maskOf('feedMode', 'G94') | 3);
  const value = perMinute
    ? given('other-feed', 'the feed is not per minute')
    : scale(f.value, 1 / unitScale(state, world));
  state.feed = { unset: false, value, place: placeOf(f.word, scope), byPath: [] };
}

function endProgram(scope: Scope): Ending {
  if (scope.dialect === 'rs274ngc')
    for (const [group, code] of modesAfterEnd) scope.state.modes[group] = maskOf(group, code);
  return 'program-end';
}

/** Values that a message, a log or an output command hands out. */
function tellOutputs(block: Block, scope: Scope): void {
  for (const item of block.items) {
    const parameters =
      item.kind === 'output'
        ? item.parameters
        : item.kind === 'comment'
          ? (readMessage(block, item, dialects[scope.dialect])?.parameters ?? [])
          : [];
    for (const parameter of parameters)
      scope.world.used(evaluate(parameter, scope), 'output', placeOf(item, scope), scope.state);
  }
}

/** `(abort, text)` ends the program with a message (common practice, no source). */
export function aborts(block: Block, dialect: DialectName): boolean {
  return block.items.some(
    (i) => i.kind === 'comment' && readMessage(block, i, dialects[dialect])?.command === 'abort',
  );
}
