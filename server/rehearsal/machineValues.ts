import type { Setup } from '../part/setup.ts';
import { unitScale } from '../program/parameters.ts';
import type { State } from '../program/state.ts';
import { empty, isNumber, type Value } from '../program/value.ts';
import type { World } from '../program/world.ts';
import type { DialectName } from '../syntax/dialect.ts';

/** What the machine answers for parameters that the program has not set. */
export class MachineValues {
  /** Numbers of work offsets, mm. */
  private readonly offsets = new Map<string, number>();
  private readonly own: ReadonlyMap<string, number>;
  /** Answers that never change, by name. */
  private readonly fixed = new Map<string, Value | null>();

  constructor(
    private readonly setup: Setup,
    private readonly dialect: DialectName,
  ) {
    this.own = new Map([...setup.parameters].map(([name, value]) => [name.replace(/[#<>]/g, ''), value]));
    for (const [system, origin] of setup.workOffsets)
      for (const [i, value] of origin.entries()) this.offsets.set(String(firstOf(system) + i), value);
  }

  /** null: it was never set. */
  parameter(name: string, state: State, world: World): Value | null {
    const offset = this.offsets.get(name);
    if (offset !== undefined) return offset * unitScale(state, world);
    if (name === '5410') {
      const diameter = this.loaded(state)?.diameter ?? null;
      return diameter === null ? null : diameter * unitScale(state, world);
    }
    const known = this.fixed.get(name);
    if (known !== undefined) return known;
    if (/^1[13]\d{3}$/.test(name) && this.dialect === 'macro')
      return this.toolOffset(Number(name)) * unitScale(state, world);
    const answer = this.answer(name);
    this.fixed.set(name, answer);
    return answer;
  }

  private answer(name: string): Value | null {
    const own = this.own.get(name);
    if (own !== undefined) return own;
    if (name.includes(':')) return this.entry(name);
    if (!/^\d+$/.test(name)) return null;
    return this.dialect === 'macro' && Number(name) < 1000 ? empty : 0;
  }

  /** Signals of the machine that a program of the macro family reads as parameters (common practice, no source). */
  isInput(name: string): boolean {
    return this.dialect === 'macro' && /^1(0\d\d|1[0-2]\d|13[0-5])$/.test(name);
  }

  /** Whether the machine knows of a value before the run. */
  holds(name: string): boolean {
    return this.own.has(name);
  }

  /** The tool in the spindle as the table has it; null: it is not in the table. */
  loaded(state: State): { readonly length: number; readonly diameter: number | null } | null {
    const tool = state.rig.loadedTool;
    return isNumber(tool) ? (this.setup.tools.get(Math.round(tool)) ?? null) : null;
  }

  /** How much of the tool's length by the table is not in force, mm. */
  lengthLeftOut(state: State): number {
    const inForce = state.rig.toolOffset[2] ?? 0;
    return isNumber(inForce) ? (this.loaded(state)?.length ?? 0) - inForce : 0;
  }

  /** `tool:3:z`, `tool:3:diameter`, `reference:1:x`, `shift:g92:x`. */
  private entry(name: string): Value | null {
    const [kind, number, field] = name.split(':');
    if (kind !== 'tool') return 0;
    const tool = this.setup.tools.get(Number(number));
    if (field === 'z') return tool?.length ?? null;
    return field === 'diameter' ? (tool?.diameter ?? null) : 0;
  }

  /** Of the macro family by H number, mm: lengths from 11001, radii from 13001. */
  private toolOffset(number: number): number {
    const tool = this.setup.tools.get(number % 1000);
    return number < 12_000 ? (tool?.length ?? 0) : (tool?.diameter ?? 0) / 2;
  }
}

/** First parameter number of a work offset of the setup. */
function firstOf(system: string): number {
  const extended = /^G54\.1 P(\d+)$/.exec(system);
  if (extended) return 7001 + 20 * (Number(extended[1]) - 1);
  const index = ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3'].indexOf(system);
  return 5221 + 20 * index;
}
