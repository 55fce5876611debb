import type { Scope } from './evaluate.ts';
import { fromPolar, fromWork, toPolar } from './frame.ts';
import { namesIn } from './modes.ts';
import type { ReadBlock } from './readBlock.ts';
import { polarLetters } from './state.ts';
import { add, given, subtract, type Value } from './value.ts';

/**
 * The block with its polar position written as X and Y words: `@` is the distance from the work origin, `^` the angle from
 * the X axis; what is left out is that of where the tool stands; under G91 both are added to it (rs274ngc, common
 * practice, no source).
 */
export function withoutPolar(read: ReadBlock, scope: Scope): ReadBlock {
  const [radius, angle] = polarLetters.map((letter) => read.words.get(letter));
  const word = (radius ?? angle)?.word;
  if (word === undefined) return read;
  const modes = namesIn('distance', scope.state.modes.distance);
  const isIncremental = modes.every((name) => name === 'G91');
  const isAbsolute = modes.every((name) => name === 'G90' || name === 'unset');
  // What it means in machine coordinates nobody says.
  const isKnown = (isAbsolute || isIncremental) && !read.codes.some(({ code }) => code === 'G53');
  const key = `${scope.line}`;
  const [x = 0, y = 0] = fromWork(scope.state.rig.frame, scope.state.position, `${key}:from`);
  const here = toPolar(x, y, key);
  const target = fromPolar(
    wanted(radius?.value, here.radius, isIncremental),
    wanted(angle?.value, here.degrees, isIncremental),
    key,
  );
  const words = new Map(read.words);
  for (const [i, letter] of (['X', 'Y'] as const).entries()) {
    const reached = target[i] ?? 0;
    const value = isIncremental ? subtract(reached, i === 0 ? x : y) : reached;
    words.set(letter, { word, value: isKnown ? value : given(`polar:${key}:${i}`, 'a polar position') });
  }
  return { ...read, words };
}

function wanted(word: Value | undefined, here: Value, isIncremental: boolean): Value {
  if (word === undefined) return here;
  return isIncremental ? add(here, word) : word;
}
