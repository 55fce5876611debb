import type { Part } from '../part/part.ts';
import { modesAfterEnd } from '../program/effects.ts';
import { maskOf } from '../program/modes.ts';
import { unitScale } from '../program/parameters.ts';
import { axisLetters, copy, type State, startState } from '../program/state.ts';
import { isNumber, type Value } from '../program/value.ts';
import { type Chance, noChance } from './chance.ts';
import type { CompiledProgram } from './compiledProgram.ts';
import type { Disturbance } from './disturbance.ts';
import type { MachineParts } from './machineParts.ts';
import { isOffset } from './offsetUnits.ts';
import { ProgramRun } from './programRun.ts';
import type { RunRecord } from './runRecord.ts';
import { VirtualMachine } from './virtualMachine.ts';
import { inWork, zeroPoint } from './zeroPoint.ts';

export interface RunLimits {
  readonly mostBlocks: number;
  /** Asked now and then; true: the run is given up. */
  readonly cancelled?: () => boolean;
}

/** The run was given up before it ended. */
export class Cancelled extends Error {}

/** A run that can be taken block by block. */
export function startRun(
  program: CompiledProgram,
  parts: MachineParts,
  disturbance: Disturbance,
  part: Part,
  chance: Chance = noChance,
): { readonly run: ProgramRun; readonly machine: VirtualMachine } {
  const machine = new VirtualMachine(parts, disturbance, part, chance);
  const state = stateAtStart(parts);
  const run = new ProgramRun(program, machine, state);
  const zero = zeroPoint(run.scope());
  if (zero) state.position = [...inWork(zero, disturbance.start), 0, 0, 0, 0, 0, 0];
  const standing = machine.standingIn(run.scope());
  if (standing !== null) machine.log.collide({ line: 0, point: disturbance.start, with: standing });
  return { run, machine };
}

/** One whole run. */
export function runOnce(
  program: CompiledProgram,
  parts: MachineParts,
  disturbance: Disturbance,
  part: Part,
  limits: RunLimits,
  chance: Chance = noChance,
): RunRecord {
  const { run, machine } = startRun(program, parts, disturbance, part, chance);
  while (run.next()) {
    if (run.blocks > limits.mostBlocks)
      machine.log.end({ kind: 'endless', line: run.line, text: `more than ${limits.mostBlocks} blocks` });
    if ((run.blocks & 1023) === 0 && limits.cancelled?.()) throw new Cancelled();
  }
  return recordOf(run, machine);
}

/** What a run left behind. */
export function recordOf(run: ProgramRun, machine: VirtualMachine): RunRecord {
  const scope = run.scope();
  const unit = 1 / unitScale(run.state, machine);
  const { log } = machine;
  return {
    end: log.ended ?? { kind: 'program-end', line: run.line },
    endLine: run.mainLine,
    touches: log.touches,
    collisions: log.collisions,
    messages: log.messages,
    stops: log.stops,
    kept: log.kept,
    written: log.written,
    inContact: machine.touchesPart(scope),
    applied: log.waiting.size === 0,
    workOffsets: machine.origins(scope, unit),
    parameters: parametersOf(run),
    unit,
    cautions: log.cautions,
    blocks: run.blocks,
    seconds: log.seconds,
  };
}

const unsetState = startState('program');

/** A machine always has modes in force: those that the program before it left by M2 or M30 (NISTIR 6556, 3.6.1). */
function stateAtStart({ setup, assumedUnit }: MachineParts): State {
  const state = copy(unsetState);
  for (const [group, code] of modesAfterEnd) state.modes[group] = maskOf(group, code);
  state.modes.units = maskOf('units', assumedUnit === 'mm' ? 'G21' : 'G20');
  state.modes.toolLength = maskOf('toolLength', 'G49');
  const zeros = axisLetters.map(() => 0);
  state.position = [...zeros];
  state.success = 0;
  state.returned = 0;
  state.rig = {
    ...state.rig,
    speed: 0,
    loadedTool: setup.tool ?? 0,
    selectedTool: setup.tool ?? 0,
    toolOffset: zeros,
    extendedOffset: 1,
  };
  return state;
}

/** What the run set, offsets and the machine's own values left out. */
function parametersOf(run: ProgramRun): ReadonlyMap<string, number> {
  const set = new Map<string, number>();
  const take = (name: string, value: Value) => {
    if (!isNumber(value) || name === '_value' || name.includes(':') || isOffset(name)) return;
    set.set(/^\d+$/.test(name) ? `#${name}` : `#<${name}>`, value);
  };
  for (const [name, value] of run.state.globals) take(name, value);
  for (const [name, value] of run.mainLocals) take(name, value);
  return set;
}
