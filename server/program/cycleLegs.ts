import type { DialectName } from '../syntax/dialect.ts';
import { choices } from './choices.ts';
import type { Cycle } from './cycle.ts';
import { isNumber } from './value.ts';
import type { Leg } from './world.ts';

/** A cycle's leg in written coordinates; work coordinates and the feed are the caller's. */
export type CycleLeg =
  | { readonly kind: 'rapid' | 'feed'; readonly to: readonly number[] }
  | Extract<Leg, { kind: 'dwell' | 'spindle' | 'stop' }>;

type Level = 'bottom' | 'clear' | 'retract';
type Step =
  | `feed-to-${Level}`
  | `rapid-to-${Level}`
  | 'pecks-out'
  | 'pecks-breaking'
  | 'dwell'
  | 'operator'
  | 'turn-again'
  | 'M3'
  | 'M4'
  | 'M5'
  | 'M19';

/** Behind the moves to the hole and to R (NISTIR 6556, 3.5.16; G73 and G74: common practice, no source). */
const steps: Readonly<Record<string, readonly Step[]>> = {
  G73: ['pecks-breaking', 'rapid-to-clear'],
  G74: ['feed-to-bottom', 'M5', 'M3', 'feed-to-clear', 'M5', 'M4'],
  G81: ['feed-to-bottom', 'rapid-to-clear'],
  G82: ['feed-to-bottom', 'dwell', 'rapid-to-clear'],
  G83: ['pecks-out', 'rapid-to-clear'],
  G84: ['feed-to-bottom', 'M5', 'M4', 'feed-to-clear', 'M5', 'M3'],
  G85: ['feed-to-bottom', 'feed-to-clear'],
  G86: ['feed-to-bottom', 'dwell', 'M5', 'rapid-to-clear', 'turn-again'],
  G88: ['feed-to-bottom', 'dwell', 'M5', 'operator', 'rapid-to-clear', 'turn-again'],
  G89: ['feed-to-bottom', 'dwell', 'feed-to-clear'],
};

/** Common practice, no source: what feeds out does so to R, and G76 and G87 stop the spindle at an angle. */
const macroSteps: Readonly<Record<string, readonly Step[]>> = {
  G74: ['feed-to-bottom', 'dwell', 'M5', 'M3', 'feed-to-retract', 'M5', 'M4', 'rapid-to-clear'],
  G76: ['feed-to-bottom', 'dwell', 'M19', 'rapid-to-clear', 'turn-again'],
  G84: ['feed-to-bottom', 'dwell', 'M5', 'M4', 'feed-to-retract', 'M5', 'M3', 'rapid-to-clear'],
  'G84.2': ['feed-to-bottom', 'dwell', 'M5', 'M4', 'feed-to-retract', 'M5', 'M3', 'rapid-to-clear'],
  'G84.3': ['feed-to-bottom', 'dwell', 'M5', 'M3', 'feed-to-retract', 'M5', 'M4', 'rapid-to-clear'],
  G85: ['feed-to-bottom', 'feed-to-retract', 'rapid-to-clear'],
  G87: ['M19', 'rapid-to-retract', 'turn-again', 'feed-to-bottom', 'M19', 'rapid-to-clear', 'turn-again'],
  G89: ['feed-to-bottom', 'dwell', 'feed-to-retract', 'rapid-to-clear'],
};

/** How far a peck comes back, or stops short of the last one: 0.010 inch in the report's reference source. */
const backOff = { mm: 0.254, inch: 0.01 } as const;
const mostLegs = 100_000;

export interface CycleOptions {
  readonly dialect: DialectName;
  readonly unit: 'mm' | 'inch';
  /** How the spindle turns before the cycle; null where that is not known. */
  readonly turning: 'M3' | 'M4' | null;
}

/**
 * The legs of a cycle from `from` (written coordinates); null where a value is no number. The step off the wall of the
 * macro family's G76 and G87, whose direction a setting of the machine gives, is left out.
 */
export function cycleLegs(
  cycle: Cycle,
  from: readonly number[],
  options: CycleOptions,
): readonly CycleLeg[] | null {
  const { retract, bottom, clear, holes } = cycle;
  if (!isNumber(retract) || !isNumber(bottom) || !isNumber(clear) || holes === null) return null;
  return new CycleRun(cycle, { retract, bottom, clear }, from, options).run(holes as [number, number][]);
}

class CycleRun {
  private readonly legs: CycleLeg[] = [];
  private readonly at: number[];

  constructor(
    private readonly cycle: Cycle,
    private readonly levels: Readonly<Record<Level, number>>,
    from: readonly number[],
    private readonly options: CycleOptions,
  ) {
    this.at = [...from];
  }

  run(holes: readonly (readonly [number, number])[]): readonly CycleLeg[] | null {
    const { code } = this.cycle;
    const { dialect } = this.options;
    const sequence = (dialect === 'macro' ? macroSteps[code] : undefined) ?? steps[code];
    const back = code === 'G87';
    // Once, whatever the number of holes: up to R before the first move across.
    if (!back && (this.at[this.cycle.plane.normal] ?? 0) < this.levels.retract)
      this.level('rapid', 'retract');
    for (const hole of holes) {
      if (!hole.every(isNumber)) return null;
      this.across('rapid', hole);
      if (!back) this.level('rapid', 'retract');
      const done = sequence ? sequence.every((step) => this.take(step)) : back && this.backBore(hole);
      if (!done || this.legs.length > mostLegs) return null;
    }
    return this.legs;
  }

  private take(step: Step): boolean {
    const [kind, , level] = step.split('-');
    if (kind === 'feed' || kind === 'rapid') this.level(kind, level as Level);
    else if (step === 'pecks-out' || step === 'pecks-breaking') return this.peck(step === 'pecks-out');
    else if (step === 'dwell') return this.dwell();
    else if (step === 'operator') this.legs.push({ kind: 'stop', code: 'M0' });
    else if (step === 'turn-again') this.turnAgain();
    else this.legs.push({ kind: 'spindle', code: step });
    return true;
  }

  private level(kind: 'rapid' | 'feed', level: Level): void {
    this.goTo(kind, this.levels[level]);
  }

  private goTo(kind: 'rapid' | 'feed', height: number): void {
    const { normal } = this.cycle.plane;
    if (this.at[normal] === height) return;
    this.at[normal] = height;
    this.legs.push({ kind, to: [...this.at] });
  }

  private across(kind: 'rapid' | 'feed', [a, b]: readonly [number, number]): void {
    const { first, second } = this.cycle.plane;
    if (this.at[first] === a && this.at[second] === b) return;
    this.at[first] = a;
    this.at[second] = b;
    this.legs.push({ kind, to: [...this.at] });
  }

  private turnAgain(): void {
    if (this.options.turning) this.legs.push({ kind: 'spindle', code: this.options.turning });
  }

  private dwell(): boolean {
    const p = this.cycle.words.get('P') ?? 0;
    if (!isNumber(p)) return false;
    const seconds = choices[this.options.dialect].dwell === 'seconds' ? p : p / 1000;
    if (seconds > 0) this.legs.push({ kind: 'dwell', seconds });
    return true;
  }

  /** Steps of Q, out to R each time or only a little back. */
  private peck(out: boolean): boolean {
    const q = this.cycle.words.get('Q') ?? 0;
    if (!isNumber(q)) return false;
    const { retract, bottom } = this.levels;
    const depth = Math.abs(q);
    if (depth > 0 && (retract - bottom) / depth > mostLegs) return false;
    const back = backOff[this.options.unit];
    for (let k = 1; depth > 0 && retract - k * depth > bottom + 1e-9; k++) {
      const reached = retract - k * depth;
      this.goTo('feed', reached);
      if (out) this.goTo('rapid', retract);
      this.goTo('rapid', out ? Math.min(retract, reached + back) : reached + back);
    }
    this.goTo('feed', bottom);
    return true;
  }

  /** G87 of NISTIR 6556, 3.5.16: down beside the hole (I, J), into it, up to K and down again, and out beside it. */
  private backBore(hole: readonly [number, number]): boolean {
    const { words } = this.cycle;
    const [i, j, k] = [words.get('I') ?? 0, words.get('J') ?? 0, words.get('K')];
    if (!isNumber(i) || !isNumber(j) || k === undefined || !isNumber(k)) return false;
    const beside: [number, number] = [hole[0] + i, hole[1] + j];
    this.across('rapid', beside);
    this.take('M19');
    this.level('rapid', 'bottom');
    this.across('rapid', hole);
    this.turnAgain();
    this.goTo('feed', k);
    this.level('feed', 'bottom');
    this.take('M19');
    this.across('rapid', beside);
    this.level('rapid', 'clear');
    this.across('rapid', hole);
    this.turnAgain();
    return true;
  }
}
