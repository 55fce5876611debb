import type { DialectName } from '../syntax/dialect.ts';
import { dialects } from '../syntax/dialects.ts';
import { readMessage } from '../syntax/messages.ts';
import type { Place } from '../syntax/place.ts';
import type { Block, Expression } from '../syntax/tree.ts';
import { applyModes } from './applyModes.ts';
import { applyModalCall, callAfterMotion, callWithWords, isOnlyArguments, modalCallIn } from './callModal.ts';
import { coolantAfter, modesAfterEnd } from './effects.ts';
import { evaluate, parameterName, placeOf, type Scope } from './evaluate.ts';
import { applyFrameCodes } from './frameCodes.ts';
import { keepModes } from './keepModes.ts';
import { maskOf, unknown } from './modes.ts';
import { moveBlock } from './move.ts';
import { applyOffsets, writeOffsetParameter } from './offsets.ts';
import { moveUntold } from './ownMotions.ts';
import { writeParameter } from './parameters.ts';
import { type ReadBlock, readBlock } from './readBlock.ts';
import { restoreModes } from './restoreModes.ts';
import { turnSpindle } from './spindle.ts';
import { copy, join, type State } from './state.ts';
import { tellAlarms, tellDwell, tellMessages, tellOutputs, tellStops } from './tell.ts';
import { applyTools } from './toolOffsets.ts';
import type { Value } from './value.ts';
import type { World } from './world.ts';

/** How the program goes on after a block; calls and jumps are the driver's. */
export type Ending = 'program-end' | 'alarm' | null;

/**
 * Runs one block on the state, in the order of NISTIR 6556, Table 8. All values are read before any setting takes
 * effect (3.3.3). The state is changed in place. Whether a block behind `/` runs is the world's; where that is not known,
 * the state holds for both. The macro family always runs what stands before a slash within the block.
 */
export function execute(
  block: Block,
  line: number,
  state: State,
  world: World,
  dialect: DialectName,
): Ending {
  const switched = block.blockDelete ? (world.deletedBlocks ?? 'run') : 'run';
  if (switched === 'run') return executeWhole(block, line, state, world, dialect);
  if (switched === 'skip') return executeWhole(undeleted(block), line, state, world, dialect);
  const skipped = copy(state);
  executeWhole(undeleted(block), line, skipped, world, dialect);
  executeWhole(block, line, state, world, dialect);
  Object.assign(state, join(state, skipped, `delete${line}`));
  return null;
}

function executeWhole(block: Block, line: number, state: State, world: World, dialect: DialectName): Ending {
  const scope: Scope = { state, world, dialect, line };
  tellMessages(block, scope);
  const settings = readSettings(block, scope);
  const read = readBlock(block, scope);
  if (isOnlyArguments(block, read, state)) return passArguments(block, read, scope);
  return executeRead(block, read, settings, scope);
}

/** A block under G66.1 moves nothing; where it may or may not be under it, the state holds for both. */
function passArguments(block: Block, read: ReadBlock, scope: Scope): Ending {
  const { state, line } = scope;
  const without = state.modal?.certain ? null : copy(state);
  callWithWords(block, scope);
  if (without === null) return null;
  without.modal = null;
  const ending = executeRead(block, read, [], { ...scope, state: without });
  if (ending === null) Object.assign(state, join(state, without, `words${line}`));
  return null;
}

function executeRead(block: Block, read: ReadBlock, settings: readonly SettingValue[], scope: Scope): Ending {
  const { dialect } = scope;
  const modal = modalCallIn(block, read, scope);
  for (const { name, value, expression, place } of settings) assign(name, value, expression, place, scope);
  tellAlarms(settings, block, scope);
  const ending = settings.some((s) => dialect === 'macro' && s.name === '3000') ? 'alarm' : null;
  tellOutputs(block, scope);
  const stop = runWords(read, scope);
  applyModalCall(modal, read, scope);
  return ending ?? stop ?? (aborts(block, dialect) ? 'alarm' : null);
}

/** What is left of a block whose slash is obeyed. */
function undeleted(block: Block): Block {
  const slash = block.blockDelete;
  if (!slash) return block;
  return { ...block, items: block.items.filter((item) => item.end <= slash.start) };
}

export interface SettingValue {
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

/** Steps 2 to 21 of Table 8; F comes behind the units, in which it is (the report's reference source reads it so too). */
function runWords(read: ReadBlock, scope: Scope): Ending {
  const { state } = scope;
  if (read.codes.length === 0 && read.words.size === 0 && read.variableCode === null) return null;
  const has = (code: string) => read.codes.some((c) => c.code === code);
  scope.world.block?.(read, state);
  const restored = keepModes(read, scope);
  applyTools(read, scope);
  applyModes(read, scope);
  turnSpindle(read, scope);
  for (const c of ['M7', 'M8', 'M9'] as const)
    if (has(c)) state.modes.coolant = coolantAfter(c, state.modes.coolant);
  if (restored) restoreModes(restored, scope);
  tellDwell(read, scope);
  applyFrameCodes(read, scope);
  const axesTaken = applyOffsets(read, scope);
  if (read.variableCode) state.modes.motion = unknown;
  const reaches = axesTaken && (has('G28') || has('G30'));
  const moves = moveUntold(read, scope) || (!axesTaken || has('G53') ? moveBlock(read, scope) : reaches);
  if (moves && state.modal) callAfterMotion(scope);
  tellStops(read, scope);
  if (has('M2') || has('M30')) return endProgram(scope);
  return null;
}

function endProgram({ state, dialect }: Scope): Ending {
  if (dialect === 'rs274ngc')
    for (const [group, code] of modesAfterEnd) state.modes[group] = maskOf(group, code);
  state.rig = { ...state.rig, cycle: null };
  return 'program-end';
}

/** `(abort, text)` ends the program with a message (common practice, no source). */
export function aborts(block: Block, dialect: DialectName): boolean {
  return block.items.some(
    (i) => i.kind === 'comment' && readMessage(block, i, dialects[dialect])?.command === 'abort',
  );
}
