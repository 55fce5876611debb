import type { Scope } from './evaluate.ts';
import { maskOf } from './modes.ts';
import type { ReadBlock } from './readBlock.ts';
import { foundAngle, type Rig } from './rig.ts';
import { add, given, isNumber, keyOf, type Value, withLiterals } from './value.ts';

/** What M3, M4, M6 and M19 do to the spindle: whether it runs, and where it stands. */
export function turnSpindle({ codes, words }: ReadBlock, { state, line }: Scope): void {
  const has = (code: string) => codes.some((c) => c.code === code);
  const { modes } = state;
  if (has('M3') || has('M4')) {
    modes.orientation = maskOf('orientation', 'turned');
    state.rig = { ...state.rig, spindleAngle: anyAngle(line, state.rig.spindleAngle) };
    // The change stops the spindle (NISTIR 6556, 3.6.3); an M3 in the same block comes after it (Table 8).
  } else if (has('M6')) modes.spindle = maskOf('spindle', 'M5');
  if (!has('M19')) return;
  modes.orientation = maskOf('orientation', 'M19');
  modes.spindle = maskOf('spindle', 'M5');
  // The angle stands in R or S, and is 0 without one (common practice, no source).
  const angle = words.get('R')?.value ?? words.get('S')?.value ?? 0;
  state.rig = { ...state.rig, spindleAngle: withLiterals(angle) };
}

/** Where the spindle stands against where the probe was calibrated. */
export type SpindleStand =
  /** Degrees of the spindle. */
  | { readonly kind: 'oriented'; readonly degrees: number }
  /** The program did not turn it. */
  | { readonly kind: 'as-found' }
  /** Degrees from an angle that nobody knows; the name tells such angles apart. */
  | { readonly kind: 'unknown'; readonly name: string; readonly degrees: number };

export function spindleStand({ spindleAngle: angle }: Pick<Rig, 'spindleAngle'>): SpindleStand {
  if (isNumber(angle)) return { kind: 'oriented', degrees: angle };
  const name = keyOf(add(angle, -angle.constant));
  return name === keyOf(found) ? { kind: 'as-found' } : { kind: 'unknown', name, degrees: angle.constant };
}

const found = given(foundAngle, '');

/** Where it comes to stand is another angle each time, on one line too. */
function anyAngle(line: number, before: Value): Value {
  const [, again] = isNumber(before)
    ? []
    : (new RegExp(`^1\\*g:spun:${line}:(\\d+):`).exec(keyOf(before)) ?? []);
  const times = again === undefined ? 1 : Number(again) + 1;
  return given(`spun:${line}:${times}`, 'the spindle ran and was not oriented again');
}
