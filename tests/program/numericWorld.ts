import type { State } from '../../server/program/state.ts';
import { axisLetters, startState } from '../../server/program/state.ts';
import type { Value } from '../../server/program/value.ts';
import type {
  Leg,
  MachineEvent,
  Motion,
  OffsetWrite,
  TouchRequest,
  World,
} from '../../server/program/world.ts';

/** A world of numbers for tests: parameters of a table, touches answered by a function, everything told kept. */
export class NumericWorld implements World {
  readonly motions: Motion[] = [];
  /** Of each motion, asked while it is told. */
  readonly legs: (readonly Leg[] | null)[] = [];
  readonly events: MachineEvent[] = [];
  readonly touches: TouchRequest[] = [];
  readonly offsets: OffsetWrite[] = [];
  readonly faults: string[] = [];
  toolChanges = 0;

  constructor(
    readonly assumedUnit: 'mm' | 'inch' = 'mm',
    /** Where a touch trips, work coordinates and program units; null: nothing is met. */
    private readonly meet: (request: TouchRequest) => readonly number[] | null = () => null,
    private readonly parameters: Readonly<Record<string, number>> = {},
  ) {}

  parameter(name: string): Value | null {
    return this.parameters[name] ?? 0;
  }

  touch(request: TouchRequest, state: State): void {
    this.touches.push(request);
    const met = this.meet(request);
    const rest = met ?? request.to;
    state.position = [...rest];
    state.latched = rest.map((v) => v);
    state.success = met === null ? 0 : 1;
  }

  motion(motion: Motion): void {
    this.motions.push(motion);
    this.legs.push(motion.legs());
  }

  used(): void {}

  offset(write: OffsetWrite): void {
    this.offsets.push(write);
  }

  toolChange(): void {
    this.toolChanges++;
  }

  event(event: MachineEvent): void {
    this.events.push(event);
  }

  fault(code: string): void {
    this.faults.push(code);
  }
}

/** A start on plain numbers: every axis at zero, or where it is said. */
export function numericStart(position: Partial<Record<(typeof axisLetters)[number], number>> = {}): State {
  const state = startState('program');
  state.position = axisLetters.map((letter) => position[letter] ?? 0);
  state.rig = {
    ...state.rig,
    toolOffset: axisLetters.map(() => 0),
    loadedTool: 0,
    selectedTool: 0,
    speed: 0,
  };
  return state;
}
