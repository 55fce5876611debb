import { offsetOf } from '../program/parameters.ts';
import { type State, setParameter } from '../program/state.ts';
import { scale } from '../program/value.ts';

/** Work offsets and shifts that the program wrote are lengths: after G20 or G21 their parameters read in the new unit. */
export function keepOffsetsInUnit(state: State, factor: number): void {
  for (const [name, value] of [...state.globals])
    if (isOffset(name)) setParameter(state, 'globals', name, scale(value, factor));
}

/** Parameters that hold a place of the machine, in the unit in force. */
export function isOffset(name: string): boolean {
  if (name.startsWith('shift:')) return !/:[abc]$/.test(name);
  const number = Number(name);
  if (!Number.isInteger(number)) return false;
  const offset = offsetOf(number, 'macro') ?? offsetOf(number, 'rs274ngc');
  if (offset !== null) return offset.axis < 3;
  return (number >= 5161 && number <= 5163) || (number >= 5181 && number <= 5183);
}
