import { placeOf, type Scope } from './evaluate.ts';
import { fromWork, toWork } from './frame.ts';
import { numbers } from './legs.ts';
import { readParameter, writeParameter } from './parameters.ts';
import type { ReadBlock } from './readBlock.ts';
import { axisLetters } from './state.ts';
import { writtenTarget } from './target.ts';
import { given, isNumber, type Value } from './value.ts';
import { fromMachine, toMachine } from './workZero.ts';

/**
 * G28 and G30: by way of the point that the block names to the reference point (NISTIR 6556, 3.5.8). With axis words those
 * axes alone go there (common practice, where the report moves all), without any all of them at once.
 */
export function goToReference(read: ReadBlock, scope: Scope): void {
  const { state, world } = scope;
  const word = read.codes.find((c) => c.code === 'G28' || c.code === 'G30');
  if (!word) return;
  const named = axisLetters.flatMap((letter, i) => (read.words.has(letter) ? [i] : []));
  const axes = named.length > 0 ? named : [0, 1, 2, 3, 4, 5];
  const key = `${scope.line}`;
  const { frame } = state.rig;
  const from = [...state.position];
  const by = toWork(frame, writtenTarget(read, named, fromWork(frame, from, key), scope), key);
  const machine = referencePoint(word.code, scope);
  const home = fromMachine(machine, scope);
  const to = by.map((v, i) => {
    if (!axes.includes(i)) return v;
    const reached = home[i] ?? v;
    return isNumber(reached) ? reached : given(`reference:${i}`, 'the reference position');
  });
  const legs = () => {
    const [middle, end] = [numbers(by), numbers(to)];
    if (middle === null || end === null) return null;
    const over = { kind: 'rapid', to: middle } as const;
    return [...(named.length > 0 ? [over] : []), { kind: 'rapid', to: end } as const];
  };
  world.motion(
    { kind: 'reference', place: placeOf(word.word, scope), from, to, axes, machineCoordinates: false, legs },
    state,
  );
  state.position = to;
}

/** #5161 and #5181 on hold it in rs274ngc; in the macro family it is a setting of the machine. Machine coordinates. */
function referencePoint(code: string, scope: Scope): Value[] {
  const { state, world, dialect, line } = scope;
  const first = code === 'G28' ? 5161 : 5181;
  return axisLetters.map((letter, i) => {
    const name =
      dialect === 'rs274ngc'
        ? String(first + i)
        : `reference:${code === 'G28' ? 1 : 2}:${letter.toLowerCase()}`;
    return readParameter(name, state, world, dialect, { line, start: 0, end: 0 });
  });
}

/** G28.1 and G30.1 of rs274ngc keep the point where the axes stand (common practice, no source). */
export function storeReference(code: string, scope: Scope): void {
  const first = code === 'G28.1' ? 5161 : 5181;
  for (const [i, value] of toMachine(scope.state.position, scope).entries())
    writeParameter(String(first + i), value, scope.state, scope.dialect);
}
