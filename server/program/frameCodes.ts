import type { Scope } from './evaluate.ts';
import { changedFrame } from './frame.ts';
import { planeAxes } from './plane.ts';
import type { ReadBlock } from './readBlock.ts';
import type { Frame } from './rig.ts';
import { axisLetters } from './state.ts';
import { given, scale, type Value } from './value.ts';

/**
 * The macro family's codes that change how written coordinates are read (common practice, no source): G15 and G16 polar,
 * G50 and G51 scaling, G50.1 and G51.1 mirroring (of these two the later replaces the earlier), G68 and G69 rotation. What tilts the
 * plane, turns with the table or unrolls a cylinder makes them unknown.
 */
export function applyFrameCodes(read: ReadBlock, scope: Scope): void {
  if (scope.dialect !== 'macro') return;
  const { state } = scope;
  for (const { code } of read.codes) {
    const change = changes[code]?.(read, scope);
    if (change === undefined) continue;
    const frame = change === 'unknown' ? 'unknown' : changedFrame(state.rig.frame, change);
    state.rig = { ...state.rig, frame };
  }
}

type Change = (read: ReadBlock, scope: Scope) => Partial<Frame> | 'unknown';

const straight = { factors: [1, 1, 1], centre: [0, 0, 0] } as const;

const changes: Readonly<Record<string, Change>> = {
  G15: () => ({ polar: false }),
  G16: () => ({ polar: true }),
  G50: () => straight,
  'G50.1': () => straight,
  G51: scaling,
  'G51.1': mirroring,
  G68: rotation,
  'G68.1': rotation,
  G69: () => ({ rotation: null }),
  'G69.1': () => ({ rotation: null }),
  'G7.1': () => 'unknown',
  'G12.1': () => 'unknown',
  'G54.2': () => 'unknown',
  'G54.4': () => 'unknown',
  'G68.2': () => 'unknown',
  'G68.3': () => 'unknown',
  'G68.4': () => 'unknown',
};

/** `G51 X Y Z P`: one factor, or I J K one for each axis; a whole number is in thousandths. */
function scaling(read: ReadBlock, scope: Scope): Partial<Frame> {
  const factor = (letter: string): Value => {
    const found = read.words.get(letter) ?? read.words.get('P');
    if (!found) return given(`scale:${scope.line}`, 'the factor is a setting of the machine');
    const point = found.word.value.kind === 'number' && /\./.test(read.textOf(found.word));
    return point ? found.value : scale(found.value, 1 / 1000);
  };
  return { factors: [factor('I'), factor('J'), factor('K')], centre: centreOf(read, scope) };
}

/** `G51.1 X0`: mirrors the axes that it names, about the point given. */
function mirroring(read: ReadBlock, scope: Scope): Partial<Frame> {
  const factor = (letter: string) => (read.words.has(letter) ? -1 : 1);
  return { factors: [factor('X'), factor('Y'), factor('Z')], centre: centreOf(read, scope) };
}

function rotation(read: ReadBlock, scope: Scope): Partial<Frame> {
  const axes = planeAxes(scope.state.modes.plane);
  if (axes === null) return { rotation: { axes: [0, 1], centre: [0, 0], degrees: unknownAngle(scope) } };
  const [first, second] = [axes.first, axes.second];
  const centre = centreOf(read, scope);
  const degrees = read.words.get('R')?.value ?? unknownAngle(scope);
  return {
    rotation: { axes: [first, second], centre: [centre[first] ?? 0, centre[second] ?? 0], degrees },
  };
}

/** The point that the block names; where it does not, where the tool stands. */
function centreOf(read: ReadBlock, { state }: Scope): [Value, Value, Value] {
  const at = (i: number) => read.words.get(axisLetters[i] ?? '')?.value ?? state.position[i] ?? 0;
  return [at(0), at(1), at(2)];
}

function unknownAngle(scope: Scope): Value {
  return given(`turn:${scope.line}`, 'the angle is not known');
}
