import { placeOf, type Scope } from './evaluate.ts';
import type { ReadBlock } from './readBlock.ts';
import { axisLetters } from './state.ts';
import { given } from './value.ts';

/**
 * Codes of the macro family whose motion the text does not tell (common practice, no source): pockets, hole patterns,
 * copies and cycles of the control or its builder, moves that a signal or a tool's offset ends elsewhere, ways to points
 * that are settings. Of the axes that the block names (of all, where it names none) nobody knows where they stand then.
 */
const ownMotions = new Set(
  'G12 G13 G28.2 G29 G30.1 G30.2 G31.1 G31.2 G31.3 G31.4 G31.8 G31.9 G32 G34 G35 G36 G37 G37.1 G37.2 G37.3'
    .split(' ')
    .concat('G45 G46 G47 G48 G53.1 G53.3 G53.6 G72 G72.1 G72.2 G75 G77 G78 G79'.split(' ')),
);
/** Units on some controls, patterns and cycles with words of their own on others. */
const patterns = new Set(['G70', 'G71']);
/** Those of them that latch, or change a tool's offset. */
const latching = /^G3[167]/;

/** The block's motion, if it is one of these; false where it is none. */
export function moveUntold(read: ReadBlock, scope: Scope): boolean {
  const { state, world, dialect, line } = scope;
  if (dialect !== 'macro') return false;
  const hasOwnWords = ['I', 'P', 'Q'].some((letter) => read.words.has(letter));
  const own = read.codes.find(({ code }) => ownMotions.has(code) || (hasOwnWords && patterns.has(code)));
  if (!own) return false;
  const { code, word } = own;
  const named = axisLetters.flatMap((letter, i) => (read.words.has(letter) ? [i] : []));
  const axes = named.length > 0 ? named : axisLetters.map((_, i) => i);
  for (const i of named) {
    const found = read.words.get(axisLetters[i] ?? '');
    if (found) world.used(found.value, 'motion', placeOf(found.word, scope), state);
  }
  const from = [...state.position];
  const to = from.map((v, i) => (axes.includes(i) ? given(`${code}:${line}:${i}`, `where ${code} ends`) : v));
  const place = placeOf(word, scope);
  world.motion(
    { kind: 'unknown', place, from, to, axes, machineCoordinates: false, legs: () => null },
    state,
  );
  state.position = to;
  if (latching.test(code)) forgetMeasured(code, scope);
  return true;
}

function forgetMeasured(code: string, { state, line }: Scope): void {
  const told = (name: string) => given(`${code}:${line}:${name}`, `what ${code} measured`);
  state.latched = state.latched.map((_, i) => told(`latched${i}`));
  state.success = told('success');
  if (!code.startsWith('G31'))
    state.rig = { ...state.rig, toolOffset: state.rig.toolOffset.map((_, i) => told(`offset${i}`)) };
}
